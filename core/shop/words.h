#pragma once

#include <optional>
#include <span>
#include <string_view>

namespace secondpull {

// The closed vocabularies of the records. Each value has one word, the same in files, in the store and on
// screen.

enum class Source { curb, dump, gift, private_sale, auction, trade_in, other };
enum class MachineKind { push, self_propelled, lawn_tractor, zero_turn, trimmer, blower, other };
enum class FaultEnd { mended, given_up, mistaken };
enum class FindEnd { bought, passed_on, gone };
enum class Work { pickup, diagnose, clean, repair, service, test_run, list, sell, comeback, other };
enum class SoldAs { running, as_is };
enum class OfferResult { taken, refused, gone, no_show };
enum class DisposalKind { scrapped, parted_out, kept };
enum class DistanceUnit { mi, km };
/// Where a machine stands. The first five are here, the rest gone (a donor's hulk may still be here).
enum class Stage {
  in_the_yard,
  on_the_bench,
  waiting_on_parts,
  test_run,
  for_sale,
  sold,
  scrapped,
  parted_out,
  kept
};

/// The word of a value: "private", "trade-in", "self-propelled", "given up", "test run", "as is", "no show",
/// "parted out", "passed on", "on the bench"...
std::string_view word(Source);
std::string_view word(MachineKind);
std::string_view word(FaultEnd);
std::string_view word(FindEnd);
std::string_view word(Work);
std::string_view word(SoldAs);
std::string_view word(OfferResult);
std::string_view word(DisposalKind);
std::string_view word(DistanceUnit);
std::string_view word(Stage);

/// Every value of a vocabulary in the order above.
template <class Word>
std::span<const Word> all_words();
template <>
std::span<const Source> all_words<Source>();
template <>
std::span<const MachineKind> all_words<MachineKind>();
template <>
std::span<const FaultEnd> all_words<FaultEnd>();
template <>
std::span<const FindEnd> all_words<FindEnd>();
template <>
std::span<const Work> all_words<Work>();
template <>
std::span<const SoldAs> all_words<SoldAs>();
template <>
std::span<const OfferResult> all_words<OfferResult>();
template <>
std::span<const DisposalKind> all_words<DisposalKind>();
template <>
std::span<const DistanceUnit> all_words<DistanceUnit>();
template <>
std::span<const Stage> all_words<Stage>();

/// The value of an exact word, or nothing.
template <class Word>
std::optional<Word> from_word(std::string_view text) {
  for (const Word value : all_words<Word>())
    if (word(value) == text) return value;
  return std::nullopt;
}

}  // namespace secondpull
