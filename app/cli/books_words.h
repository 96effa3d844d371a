#pragma once

#include <string>

#include "core/books/schedule.h"
#include "core/books/year_papers.h"

namespace secondpull::cli {

/// The year for a terminal: laid out as the form where there is one, then tax, miles, receipts by way of
/// payment and the identity; it ends saying that it is no tax advice.
std::string books_words(const Books& books, const YearFigures& figures, const FormLines& forms);

/// One figure with what it is made of.
std::string why_words(const YearSize& figure, const YearWhy& why, const Currency& currency);

}  // namespace secondpull::cli
