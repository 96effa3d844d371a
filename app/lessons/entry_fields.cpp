#include <algorithm>

#include <QCoreApplication>

#include "app/lessons/entry_sheet.h"

namespace secondpull::app {
namespace {

using Kind = FieldSpec::Kind;

QString say(const char* text) {
  return QCoreApplication::translate("KnowledgeEntry", text);
}

FieldSpec name() {
  return {.key = "name", .label = say("Name")};
}
FieldSpec also(const char* help = QT_TRANSLATE_NOOP("KnowledgeEntry", "one a line")) {
  return {.key = "also", .label = say("Also called"), .kind = Kind::lines, .help = say(help)};
}
FieldSpec says(const char* label) {
  return {.key = "says", .label = say(label), .kind = Kind::words};
}
FieldSpec kinds() {
  return {.key = "kinds",
          .label = say("Kinds of machine"),
          .kind = Kind::kinds,
          .help = say("none ticked: any kind")};
}
FieldSpec three(const char* key, const char* label, const char* help = "") {
  return {.key = key, .label = say(label), .kind = Kind::three, .help = *help != 0 ? say(help) : QString{}};
}
FieldSpec picks(const char* key, const char* label, const char* of, const QStringList& columns,
                const char* help = "") {
  return {.key = key,
          .label = say(label),
          .kind = Kind::picks,
          .help = *help != 0 ? say(help) : QString{},
          .of = of,
          .columns = columns};
}
std::vector<FieldSpec> withOrigin(std::vector<FieldSpec> fields) {
  fields.push_back(
      {.key = "note", .label = say("Where it comes from"), .help = say("“own experience”, say")});
  fields.push_back({.key = "sources",
                    .label = say("Publications"),
                    .help = say("their short names, with commas between")});
  return fields;
}

std::map<QString, std::vector<FieldSpec>> allFields() {
  std::map<QString, std::vector<FieldSpec>> all;
  all["symptoms"] = withOrigin({name(),
                                also("one a line; words of your own for it count from then on"),
                                kinds(),
                                {.key = "engine",
                                 .label = say("What the engine does"),
                                 .kind = Kind::choice,
                                 .words = {{"", say("says nothing about it")},
                                           {"none", say("does not turn")},
                                           {"turns", say("turns, does not start")},
                                           {"runs", say("runs")}}},
                                picks("causes", "What is behind it", "causes", {say("cases")},
                                      "as counts of cases: how many of all that had it")});
  all["causes"] = withOrigin(
      {name(), also("one a line; words of your own for it count from then on"), says("What gives it away")});
  all["tests"] = withOrigin({name(),
                             also(),
                             says("How it is done"),
                             {.key = "ask",
                              .label = say("Question to a seller"),
                              .help = say("where one can tell over the telephone")},
                             {.key = "minutes", .label = say("Minutes")},
                             {.key = "cost", .label = say("Cost"), .help = say("of what is used up")},
                             {.key = "outcomes", .label = say("What it can show"), .kind = Kind::outcomes},
                             picks("likelihood", "How often it shows what", "causes", {},
                                   "in 100, by what is wrong; each row adds up to 100 %"),
                             kinds(),
                             picks("symptoms", "Of use for", "symptoms", {}, "none: any symptom"),
                             {.key = "needs",
                              .label = say("Needs the engine"),
                              .kind = Kind::choice,
                              .words = {{"", say("not at all")},
                                        {"turning", say("to turn")},
                                        {"turning, not starting", say("to turn and not start")},
                                        {"running", say("to run")}}},
                             picks("after", "Only after", "tests", {say("showed (names, with ; between)")}),
                             {.key = "group",
                              .label = say("Looks at the same thing"),
                              .help = say("of tests with the same word here only one is made")}});
  all["repairs"] =
      withOrigin({name(),
                  also(),
                  says("What to know of it"),
                  three("minutes", "Minutes"),
                  three("parts", "What its parts cost"),
                  picks("cures", "How often it cures what", "causes", {say("worked"), say("of tries")},
                        "as counts: worked so many times of so many tries"),
                  {.key = "parts_named",
                   .label = say("Its part is called"),
                   .kind = Kind::lines,
                   .help = say("one a line")},
                  {.key = "days", .label = say("Days for the part"), .help = say("0: nobody sends for it")},
                  {.key = "tries", .label = say("Tries on one fault"), .help = say("at most")},
                  kinds()});
  all["known_work"] =
      withOrigin({name(), also("one a line; looked for in a machine's condition"), says("What to know of it"),
                  three("cost", "Cost"), three("minutes", "Minutes"), kinds()});
  all["parts_to_pull"] = withOrigin(
      {name(),
       says("What to know of it"),
       three("price", "Price"),
       {.key = "chance", .label = say("Sold or used within a year"), .help = say("in 100")},
       three("minutes", "Minutes", "to pull, clean and sell"),
       picks("spoiled_by", "Worthless with", "causes", {}),
       picks("goes_with", "Stays on", "parts_to_pull", {}, "and alone only where that one is spoiled"),
       kinds()});
  all["kinds"] =
      withOrigin({three("running_price", "Price running"), three("as_is_price", "Price as is"),
                  three("minutes_to_sell", "Minutes to sell", "photos, listing, messages, showing"),
                  three("days_to_sell", "Days to sell", "of a running one, in the best months"),
                  three("weight", "Weight in pounds")});
  all["checks"] = withOrigin({name(),
                              kinds(),
                              {.key = "level",
                               .label = say("How strict"),
                               .kind = Kind::choice,
                               .words = {{"should", say("should be so")},
                                         {"must", say("must: else it is not offered as running")}}}});
  return all;
}

}  // namespace

const std::vector<SectionSpec>& editedSections() {
  static const std::vector<SectionSpec> kAll{
      {"symptoms", say("Symptoms"), say("symptom")},
      {"causes", say("Causes"), say("cause")},
      {"tests", say("Tests"), say("test")},
      {"repairs", say("Repairs"), say("repair")},
      {"known_work", say("Known work"), say("piece of known work")},
      {"parts_to_pull", say("Parts to pull"), say("part to pull")},
      {"kinds", say("Kinds of machine"), say("kind of machine"), false},
      {"checks", say("Looks before the sale"), say("look before the sale")}};
  return kAll;
}

const SectionSpec& sectionSpec(const QString& section) {
  const auto& all = editedSections();
  const auto at =
      std::find_if(all.begin(), all.end(), [&](const SectionSpec& each) { return section == each.id; });
  return at == all.end() ? all.front() : *at;
}

const std::vector<FieldSpec>& fieldsOf(const QString& section) {
  static const std::map<QString, std::vector<FieldSpec>> kAll = allFields();
  static const std::vector<FieldSpec> kNone;
  const auto at = kAll.find(section);
  return at == kAll.end() ? kNone : at->second;
}

}  // namespace secondpull::app
