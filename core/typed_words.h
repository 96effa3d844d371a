#pragma once

#include <optional>
#include <string_view>
#include <vector>

namespace secondpull {

// Reading what a person types: small helpers shared by amounts, dates and minutes.

/// Without spaces and tabs at its ends.
std::string_view trimmed(std::string_view text);
/// Digits alone, at most nine of them.
std::optional<int> whole_number(std::string_view text);
/// Alike in ASCII letters of either case.
bool same_word(std::string_view a, std::string_view b);
/// Does `word` begin the name, in either case?
bool begins_alike(std::string_view name, std::string_view word);
/// Do these words stand in the text, in either case, with no letter or digit before or after? Not if they are
/// empty.
bool holds_words(std::string_view text, std::string_view words);
/// The pieces between any of the separators, empty ones left out.
std::vector<std::string_view> pieces(std::string_view text, std::string_view separators);

}  // namespace secondpull
