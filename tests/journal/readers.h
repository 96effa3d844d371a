#pragma once

#include <filesystem>
#include <map>
#include <ostream>
#include <string>

#include "core/money/money.h"

namespace secondpull {

/// How a failed comparison shows an amount: in minor units.
inline void PrintTo(Money amount, std::ostream* out) {
  *out << amount.minor();
}

}  // namespace secondpull

namespace secondpull::test {

/// Amounts by account, tag or place; what is zero is not in it.
using Amounts = std::map<std::string, Money>;

/// A journal in a file of its own, and the programs that read it. Whatever goes wrong (a program is missing,
/// or complains) throws with what it said.
class Readers {
 public:
  Readers(const std::string& journal, Currency currency);
  ~Readers();
  Readers(const Readers&) = delete;
  Readers& operator=(const Readers&) = delete;

  /// hledger's check: every transaction is read and balances.
  void check() const;
  /// hledger's balances by year; `arguments` as on its command line, quoted for the shell.
  std::map<int, Amounts> hledger_by_year(const std::string& arguments) const;
  /// hledger's balances over all time.
  Amounts hledger(const std::string& arguments) const;
  /// ledger's balances over all time.
  Amounts ledger(const std::string& arguments) const;

 private:
  std::string run(const std::string& command) const;
  Money amount(std::string_view text) const;

  std::filesystem::path file_;
  Currency currency_;
};

}  // namespace secondpull::test
