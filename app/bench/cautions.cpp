#include "app/bench/cautions.h"

#include <algorithm>
#include <array>
#include <span>

#include <QCoreApplication>
#include <QStringList>

namespace secondpull::app {
namespace {

struct Rule {
  Danger danger;
  std::span<const char16_t* const> stems;    ///< a word that begins so
  std::span<const char16_t* const> phrases;  ///< these words exactly, in this order
};

constexpr std::array<const char16_t*, 6> kBladeStems{u"blade",   u"sharpen", u"spindle",
                                                     u"mandrel", u"deck",    u"cutter"};
constexpr std::array<const char16_t*, 8> kFuelStems{u"fuel",  u"petrol", u"gasoline", u"carb",
                                                    u"float", u"jet",    u"petcock",  u"primer"};
constexpr std::array<const char16_t*, 4> kFuelPhrases{u"gas", u"tank", u"needle valve", u"bowl"};
constexpr std::array<const char16_t*, 1> kUltrasonicStems{u"ultrasonic"};
constexpr std::array<const char16_t*, 4> kSprayStems{u"spray", u"aerosol", u"compressor", u"solvent"};
constexpr std::array<const char16_t*, 5> kSprayPhrases{u"compressed air", u"blow out", u"blow through",
                                                       u"carb cleaner", u"brake cleaner"};
constexpr std::array<const char16_t*, 6> kExhaustStems{u"exhaust", u"muffler", u"idle",
                                                       u"idling",  u"running", u"warm"};
constexpr std::array<const char16_t*, 8> kExhaustPhrases{u"run",    u"runs",     u"test run", u"start",
                                                         u"starts", u"starting", u"started",  u"governor"};
constexpr std::array<const char16_t*, 4> kLiftingStems{u"jack", u"lift", u"hoist", u"underneath"};
constexpr std::array<const char16_t*, 1> kLiftingPhrases{u"raise"};
constexpr std::array<const char16_t*, 3> kRecoilStems{u"recoil", u"rewind", u"rope"};
constexpr std::array<const char16_t*, 4> kRecoilPhrases{u"pull cord", u"starter cord", u"pull starter",
                                                        u"starter spring"};
constexpr std::array<const char16_t*, 1> kBrakePhrases{u"blade brake"};
constexpr std::array<const char16_t*, 1> kBrakeStems{u"flywheel"};
constexpr std::array<const char16_t*, 3> kBatteryStems{u"batter", u"charger", u"charging"};
constexpr std::array<const char16_t*, 2> kBatteryPhrases{u"charge", u"jump start"};
constexpr std::array<const char16_t*, 4> kSwitchStems{u"switch", u"bypass", u"interlock", u"bail"};
constexpr std::array<const char16_t*, 1> kCrankStems{u"crankshaft"};
constexpr std::array<const char16_t*, 1> kCrankPhrases{u"bent crank"};

const std::array<Rule, 11>& rules() {
  static const std::array<Rule, 11> all{{
      {Danger::blade, kBladeStems, {}},
      {Danger::fuel, kFuelStems, kFuelPhrases},
      {Danger::ultrasonic, kUltrasonicStems, {}},
      {Danger::spray, kSprayStems, kSprayPhrases},
      {Danger::exhaust, kExhaustStems, kExhaustPhrases},
      {Danger::lifting, kLiftingStems, kLiftingPhrases},
      {Danger::recoil, kRecoilStems, kRecoilPhrases},
      {Danger::blade_brake, kBrakeStems, kBrakePhrases},
      {Danger::battery, kBatteryStems, kBatteryPhrases},
      {Danger::safety_switch, kSwitchStems, {}},
      {Danger::crankshaft, kCrankStems, kCrankPhrases},
  }};
  return all;
}

/// The letters and digits of the text in lower case, one space around every word.
QString spacedWords(QStringView text) {
  QString spaced = QStringLiteral(" ");
  for (const QChar sign : text) {
    if (sign.isLetterOrNumber())
      spaced += sign.toLower();
    else if (!spaced.endsWith(u' '))
      spaced += u' ';
  }
  if (!spaced.endsWith(u' ')) spaced += u' ';
  return spaced;
}

bool pointsAt(const Rule& rule, const QString& spaced) {
  const auto begins = [&](const char16_t* stem) { return spaced.contains(u' ' + QString::fromUtf16(stem)); };
  const auto stands = [&](const char16_t* phrase) {
    return spaced.contains(u' ' + QString::fromUtf16(phrase) + u' ');
  };
  return std::any_of(rule.stems.begin(), rule.stems.end(), begins) ||
         std::any_of(rule.phrases.begin(), rule.phrases.end(), stands);
}

QString say(const char* text) {
  return QCoreApplication::translate("Cautions", text);
}

}  // namespace

std::vector<Danger> dangersOf(QStringView words) {
  const QString spaced = spacedWords(words);
  std::vector<Danger> found;
  for (const Rule& rule : rules())
    if (pointsAt(rule, spaced)) found.push_back(rule.danger);
  return found;
}

QString caution(Danger danger) {
  switch (danger) {
    case Danger::blade:
      return say("Plug wire off and grounded before hands go near the blade.");
    case Danger::fuel:
      return say(
          "Fuel: outdoors only, engine cold, into an approved can, nothing near that sparks or burns.");
    case Danger::ultrasonic:
      return say(
          "Nothing that burns goes loose into the basin: a water-based cleaner there. A closed jar standing "
          "in "
          "water is a makeshift with a risk of its own.");
    case Danger::spray:
      return say("Eye protection on for compressed air and spray cleaner.");
    case Danger::exhaust:
      return say("Run the engine outdoors only: its exhaust carries carbon monoxide, which nobody smells.");
    case Danger::lifting:
      return say("Stands under it before you are: a jack alone holds nothing.");
    case Danger::recoil:
      return say("The recoil spring is wound up: let its pull off first, eyes and hands protected.");
    case Danger::blade_brake:
      return say("The blade brake's spring is under load, and the plug wire comes off before it is touched.");
    case Danger::battery:
      return say("A battery gives off gas that explodes: fresh air, no spark, eyes protected.");
    case Danger::safety_switch:
      return say("A safety switch is never left bypassed.");
    case Danger::crankshaft:
      return say("A bent crankshaft is never straightened.");
  }
  return {};
}

QString cautionLine(QStringView words) {
  QStringList sentences;
  for (const Danger danger : dangersOf(words))
    sentences << caution(danger);
  if (sentences.empty()) return {};
  sentences << say("The maker's manual comes first.");
  return sentences.join(u' ');
}

}  // namespace secondpull::app
