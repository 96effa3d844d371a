#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/learning/knowledge_base.h"
#include "core/shop/stage.h"

namespace secondpull::paper {

/// What one buyer took along in one deal.
struct Deal {
  std::vector<SaleId> machines;
  std::vector<PartSaleId> parts;
  friend bool operator==(const Deal&, const Deal&) = default;
};
/// What was sold to the same buyer on the same day, in the order entered; of a machine that was sold to them
/// twice that day the later sale. Where no buyer is named, that one thing alone. Empty for an unknown sale.
Deal deal_of(const Shop& shop, SaleId sale);
Deal deal_of(const Shop& shop, PartSaleId sale);

struct ReceiptLine {
  std::string what;     ///< "#14 Tarnwick TW-2 self-propelled mower", "3 x spark plug"
  std::string details;  ///< "serial 66G84520, model no. FC-118"; of a machine never empty
  Money price;
  friend bool operator==(const ReceiptLine&, const ReceiptLine&) = default;
};

/// An amount with what it is of: sales tax and its place, a deposit and its day.
struct NamedAmount {
  std::string name;
  Money amount;
  friend bool operator==(const NamedAmount&, const NamedAmount&) = default;
};

/// What is said of one machine that was sold.
struct SoldMachine {
  std::string name;                ///< as in its line
  std::string terms;               ///< how it is sold; empty: nothing was said
  std::string warranty;            ///< a sentence
  std::vector<std::string> wrong;  ///< what was known to be wrong with it that day
  std::string recall;              ///< a sentence; empty: no look-up is on record
  friend bool operator==(const SoldMachine&, const SoldMachine&) = default;
};

/// The paper that a buyer gets.
struct Receipt {
  std::string number;  ///< of the first sale in the shop's records
  Date date{};
  std::string seller;         ///< the shop's name
  std::string buyer;          ///< empty: not named
  std::string buyer_contact;  ///< telephone and mail, as far as known
  std::vector<ReceiptLine> lines;
  Money goods;                     ///< what the lines add up to
  std::vector<NamedAmount> taxes;  ///< by place, in the order of the lines; those of zero are left out
  Money total;                     ///< goods and taxes
  std::vector<NamedAmount> deposits;
  Money balance;           ///< total less deposits: what was paid that day
  std::string payment;     ///< "cash"; empty: not said
  bool delivered = false;  ///< the seller paid for it: it is part of the price
  std::vector<SoldMachine> machines;
  std::vector<std::string> safety;  ///< sentences; none where only parts were sold
  friend bool operator==(const Receipt&, const Receipt&) = default;
};
/// Deposits are those of offers that were taken, left since the machine was sold before and not given back.
/// Sales that are not there are left out.
Receipt receipt_of(const Shop& shop, const ByMachine& by_machine, const learning::KnowledgeBase& base,
                   const Deal& deal);

}  // namespace secondpull::paper
