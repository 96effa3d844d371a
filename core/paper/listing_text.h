#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/learning/knowledge_base.h"
#include "core/shop/stage.h"

namespace secondpull::paper {

/// How a machine is offered.
struct ListingTerms {
  std::optional<Money> asking;    ///< absent: nothing is said of a price
  std::optional<SoldAs> sold_as;  ///< absent: nothing is said of how it is sold
  friend bool operator==(const ListingTerms&, const ListingTerms&) = default;
};
/// Those of its listing that has not ended; nothing where there is none.
ListingTerms terms_of(const ByMachine::Lines& lines);

/// A listing as people read it.
struct ListingWords {
  std::string title;  ///< one line
  std::string body;   ///< paragraphs with an empty line between them; lines that begin with "- " are a list
  bool own = false;   ///< the owner's own words
  friend bool operator==(const ListingWords&, const ListingWords&) = default;
};

/// Made from the record: what it is, what was done to it here, what is known to be wrong with it, the price,
/// how it is sold, and what the buyer's safety asks for. Nothing is claimed that the record does not say.
ListingWords words_from_record(const Shop& shop, const ByMachine::Lines& lines,
                               const learning::KnowledgeBase& base, const ListingTerms& terms, Date today);

/// The owner's own words (core/shop/listing_text.h), else those made from the record.
ListingWords listing_words(const Shop& shop, const ByMachine::Lines& lines,
                           const learning::KnowledgeBase& base, const ListingTerms& terms, Date today);

/// As one text for a field or a file: the title, an empty line, the body.
std::string as_text(const ListingWords& words);
/// And back: the first line is the title.
ListingWords own_words(std::string_view text);

}  // namespace secondpull::paper
