#pragma once

#include <string>

#include "core/books/books.h"

namespace secondpull::cli {

/// `books YEAR --json`: one object with the keys in the order that the exchange format names.
std::string books_json(const YearFigures& figures, const Currency& currency);

/// A part of a figure: as size_text, but minutes as minutes, so that the parts add up to what is shown.
std::string part_text(const YearDetail& detail, const Currency& currency);

/// `books YEAR --json --explain`: the same object with `explained`: for each figure (and category or place)
/// `how` in words and its `details`, each with the event or the other figure that it is.
std::string explained_json(const Shop& shop, const YearFigures& figures,
                           const std::vector<std::pair<YearSize, YearWhy>>& whys);

}  // namespace secondpull::cli
