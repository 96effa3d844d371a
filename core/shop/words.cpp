#include "core/shop/words.h"

#include <array>
#include <cstddef>

namespace secondpull {
namespace {

// Each list holds the words of a vocabulary in the order of its values.
constexpr std::array<std::string_view, 7> kSource = {"curb",    "dump",     "gift", "private",
                                                     "auction", "trade-in", "other"};
constexpr std::array<std::string_view, 7> kMachineKind = {
    "push", "self-propelled", "lawn tractor", "zero-turn", "trimmer", "blower", "other"};
constexpr std::array<std::string_view, 3> kFaultEnd = {"mended", "given up", "mistaken"};
constexpr std::array<std::string_view, 3> kFindEnd = {"bought", "passed on", "gone"};
constexpr std::array<std::string_view, 10> kWork = {"pickup",   "diagnose", "clean", "repair",   "service",
                                                    "test run", "list",     "sell",  "comeback", "other"};
constexpr std::array<std::string_view, 2> kSoldAs = {"running", "as is"};
constexpr std::array<std::string_view, 4> kOfferResult = {"taken", "refused", "gone", "no show"};
constexpr std::array<std::string_view, 3> kDisposalKind = {"scrapped", "parted out", "kept"};
constexpr std::array<std::string_view, 2> kDistanceUnit = {"mi", "km"};
constexpr std::array<std::string_view, 9> kStage = {"in the yard", "on the bench", "waiting on parts",
                                                    "test run",    "for sale",     "sold",
                                                    "scrapped",    "parted out",   "kept"};

template <class Word, std::size_t N>
constexpr std::array<Word, N> values_of(const std::array<std::string_view, N>&) {
  std::array<Word, N> values{};
  for (std::size_t i = 0; i < N; ++i)
    values[i] = static_cast<Word>(i);
  return values;
}

template <class Word, std::size_t N>
std::string_view word_of(const std::array<std::string_view, N>& words, Word value) {
  return words.at(static_cast<std::size_t>(value));
}

}  // namespace

std::string_view word(Source value) {
  return word_of(kSource, value);
}
std::string_view word(MachineKind value) {
  return word_of(kMachineKind, value);
}
std::string_view word(FaultEnd value) {
  return word_of(kFaultEnd, value);
}
std::string_view word(FindEnd value) {
  return word_of(kFindEnd, value);
}
std::string_view word(Work value) {
  return word_of(kWork, value);
}
std::string_view word(SoldAs value) {
  return word_of(kSoldAs, value);
}
std::string_view word(OfferResult value) {
  return word_of(kOfferResult, value);
}
std::string_view word(DisposalKind value) {
  return word_of(kDisposalKind, value);
}
std::string_view word(DistanceUnit value) {
  return word_of(kDistanceUnit, value);
}
std::string_view word(Stage value) {
  return word_of(kStage, value);
}

template <>
std::span<const Source> all_words<Source>() {
  static constexpr auto kValues = values_of<Source>(kSource);
  return kValues;
}
template <>
std::span<const MachineKind> all_words<MachineKind>() {
  static constexpr auto kValues = values_of<MachineKind>(kMachineKind);
  return kValues;
}
template <>
std::span<const FaultEnd> all_words<FaultEnd>() {
  static constexpr auto kValues = values_of<FaultEnd>(kFaultEnd);
  return kValues;
}
template <>
std::span<const FindEnd> all_words<FindEnd>() {
  static constexpr auto kValues = values_of<FindEnd>(kFindEnd);
  return kValues;
}
template <>
std::span<const Work> all_words<Work>() {
  static constexpr auto kValues = values_of<Work>(kWork);
  return kValues;
}
template <>
std::span<const SoldAs> all_words<SoldAs>() {
  static constexpr auto kValues = values_of<SoldAs>(kSoldAs);
  return kValues;
}
template <>
std::span<const OfferResult> all_words<OfferResult>() {
  static constexpr auto kValues = values_of<OfferResult>(kOfferResult);
  return kValues;
}
template <>
std::span<const DisposalKind> all_words<DisposalKind>() {
  static constexpr auto kValues = values_of<DisposalKind>(kDisposalKind);
  return kValues;
}
template <>
std::span<const DistanceUnit> all_words<DistanceUnit>() {
  static constexpr auto kValues = values_of<DistanceUnit>(kDistanceUnit);
  return kValues;
}
template <>
std::span<const Stage> all_words<Stage>() {
  static constexpr auto kValues = values_of<Stage>(kStage);
  return kValues;
}

}  // namespace secondpull
