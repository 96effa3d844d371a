#include "core/paper/listing_text.h"

#include <fmt/format.h>

#include "core/paper/condition.h"
#include "core/paper/machine_words.h"
#include "core/shop/listing_text.h"
#include "core/typed_words.h"

namespace secondpull::paper {
namespace {

constexpr std::string_view kSafetyWords =
    "Read the maker's manual before the first start, keep every guard on, and leave no safety switch "
    "bypassed.";

std::string sentence_of(std::string words) {
  constexpr char kCase = 'a' - 'A';
  if (!words.empty() && words.front() >= 'a' && words.front() <= 'z')
    words.front() = static_cast<char>(words.front() - kCase);
  return words;
}

class Writer {
 public:
  void paragraph(const std::string& text) {
    if (text.empty()) return;
    if (!body_.empty()) body_ += "\n\n";
    body_ += text;
  }
  void list(std::string_view heading, const std::vector<std::string>& items) {
    if (items.empty()) return;
    std::string text{heading};
    for (const std::string& item : items)
      text += "\n- " + sentence_of(item);
    paragraph(text);
  }
  std::string taken() && { return std::move(body_); }

 private:
  std::string body_;
};

std::string title_of(const Machine& machine, const ListingTerms& terms) {
  std::vector<std::string> words{machine_name(machine)};
  if (machine.deck_in) words.push_back(inches(*machine.deck_in) + " cut");
  if (machine.year) words.push_back(std::to_string(*machine.year));
  if (terms.sold_as) words.push_back(*terms.sold_as == SoldAs::running ? "running" : "sold as is");
  return sentence_of(joined(words, ", "));
}

std::string what_it_is(const Machine& machine) {
  std::vector<std::string> facts;
  if (machine.deck_in) facts.push_back(inches(*machine.deck_in) + " cut");
  if (machine.year) facts.push_back(fmt::format("made in {}", *machine.year));
  if (!machine.engine.empty()) facts.push_back(fmt::format("engine {}", machine.engine));
  if (!machine.model_number.empty()) facts.push_back(fmt::format("model no. {}", machine.model_number));
  return sentence_of(joined({machine_name(machine), joined(facts, ", ")}, ": ")) + ".";
}

std::vector<std::string> done_to_it(const Condition& condition) {
  std::vector<std::string> done;
  for (const std::string& each : condition.mended)
    done.push_back("mended: " + each);
  if (!condition.fitted.empty()) done.push_back("fitted: " + joined(condition.fitted, ", "));
  if (!condition.work.empty()) done.push_back("seen to: " + joined(condition.work, ", "));
  if (condition.ran_through) done.push_back("test run: " + condition.test_run);
  return done;
}

std::string how_it_is_sold(const Condition& condition, const ListingTerms& terms) {
  if (!terms.sold_as) return {};
  if (*terms.sold_as == SoldAs::as_is) return std::string{kAsIsWords};
  return condition.ran_through ? "It runs and is sold as a running machine: start it yourself before you pay."
                               : "It is sold as a running machine: start it yourself before you pay.";
}

}  // namespace

ListingTerms terms_of(const ByMachine::Lines& lines) {
  ListingTerms terms;
  for (const Listing* listing : lines.listings)
    if (!listing->ended) terms = {.asking = listing->asking, .sold_as = listing->sold_as};
  return terms;
}

ListingWords words_from_record(const Shop& shop, const ByMachine::Lines& lines,
                               const learning::KnowledgeBase& base, const ListingTerms& terms, Date today) {
  if (lines.machine == nullptr) return {};
  const Condition condition = condition_of(shop, lines, base, today);
  Writer writer;
  writer.paragraph(what_it_is(*lines.machine));
  writer.list("Done to it here:", done_to_it(condition));
  writer.list("Looked at, and in order:", condition.passed);
  if (condition.wrong.empty())
    writer.paragraph("No fault of it is known.");
  else
    writer.list("What is known to be wrong or worn:", condition.wrong);
  if (terms.asking)
    writer.paragraph(fmt::format("Price: {}.", shown_short(*terms.asking, shop.settings.currency)));
  writer.paragraph(how_it_is_sold(condition, terms));
  const std::string recall = condition.recall.empty() ? "" : fmt::format(" Recalls: {}.", condition.recall);
  writer.paragraph(std::string{kSafetyWords} + recall);
  return {.title = title_of(*lines.machine, terms), .body = std::move(writer).taken()};
}

ListingWords listing_words(const Shop& shop, const ByMachine::Lines& lines,
                           const learning::KnowledgeBase& base, const ListingTerms& terms, Date today) {
  const ListingText* const own =
      lines.machine != nullptr ? own_listing_text(shop, lines.machine->id) : nullptr;
  return own != nullptr ? own_words(own->text) : words_from_record(shop, lines, base, terms, today);
}

std::string as_text(const ListingWords& words) {
  if (words.body.empty()) return words.title;
  return words.title + "\n\n" + words.body;
}

ListingWords own_words(std::string_view text) {
  const std::size_t end = text.find('\n');
  ListingWords words{.title = std::string{trimmed(text.substr(0, end))}, .own = true};
  if (!words.title.empty() && words.title.back() == '\r') words.title.pop_back();
  if (end == std::string_view::npos) return words;
  const std::size_t begin = text.find_first_not_of(" \t\r\n", end);
  if (begin != std::string_view::npos) words.body = std::string{text.substr(begin)};
  return words;
}

}  // namespace secondpull::paper
