#pragma once

#include <string>

#include "core/books/books.h"

namespace secondpull::cli {

/// `books YEAR --json`: one object with the keys in the order that the exchange format names.
std::string books_json(const YearFigures& figures, const Currency& currency);

/// A size in the unit of its line as the exchange format writes it: "189.20", "3.33" hours, "28.0" miles,
/// "1".
std::string size_text(YearWhy::Unit unit, std::int64_t size, const Currency& currency);

/// `books YEAR --json --explain`: the same object with `explained`: for each figure (and category or place)
/// `how` in words and its `details`.
std::string explained_json(const YearFigures& figures, const std::vector<std::pair<YearSize, YearWhy>>& whys,
                           const Currency& currency);

}  // namespace secondpull::cli
