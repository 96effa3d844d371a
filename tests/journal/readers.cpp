#include "tests/journal/readers.h"

#include <array>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <stdexcept>
#include <unistd.h>

#include "db/exchange/csv.h"

namespace secondpull::test {

namespace {

void add(Amounts& amounts, std::string_view name, Money amount) {
  if (!amount.is_zero()) amounts[std::string{name}] += amount;
}

}  // namespace

Readers::Readers(const std::string& journal, Currency currency) : currency_{std::move(currency)} {
  std::string name = (std::filesystem::temp_directory_path() / "secondpull-journal-XXXXXX").string();
  const int handle = mkstemp(name.data());
  if (handle < 0) throw std::runtime_error("no file for a journal could be made");
  close(handle);
  file_ = name;
  std::ofstream{file_, std::ios::binary} << journal;
}

Readers::~Readers() {
  std::error_code ignored;  // a file left behind in the temporary folder harms nobody
  std::filesystem::remove(file_, ignored);
}

std::string Readers::run(const std::string& command) const {
  const std::string whole = "LC_ALL=C.UTF-8 " + command + " 2>&1";
  std::FILE* const pipe = popen(whole.c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("cannot run: " + whole);
  std::string said;
  std::array<char, 4096> block{};
  for (std::size_t read = 0; (read = std::fread(block.data(), 1, block.size(), pipe)) > 0;)
    said.append(block.data(), read);
  if (pclose(pipe) != 0) throw std::runtime_error(whole + "\n" + said);
  return said;
}

/// "-12.50 USD", "1000. JPY" or "0".
Money Readers::amount(std::string_view text) const {
  if (const std::string end = " " + currency_.code; text.ends_with(end)) text.remove_suffix(end.size());
  if (text.ends_with('.')) text.remove_suffix(1);
  const auto read = parse_amount(text, currency_, "amount");
  if (!read) throw std::runtime_error(read.error().sentence);
  return *read;
}

void Readers::check() const {
  run("hledger -f '" + file_.string() + "' check");
}

std::map<int, Amounts> Readers::hledger_by_year(const std::string& arguments) const {
  const db::CsvTable table =
      db::read_csv(run("hledger -f '" + file_.string() + "' balance --no-total -Y -O csv " + arguments));
  std::map<int, Amounts> years;
  const auto heads = table.row(0).cells;
  for (std::size_t column = 1; column < heads.size(); ++column) {
    Amounts& year = years[std::stoi(std::string{heads[column]})];
    for (std::size_t row = 1; row < table.size(); ++row)
      add(year, table.row(row).cells[0], amount(table.row(row).cells[column]));
  }
  return years;
}

Amounts Readers::hledger(const std::string& arguments) const {
  const db::CsvTable table =
      db::read_csv(run("hledger -f '" + file_.string() + "' balance --no-total -O csv " + arguments));
  Amounts amounts;
  for (std::size_t row = 1; row < table.size(); ++row)
    add(amounts, table.row(row).cells[0], amount(table.row(row).cells[1]));
  return amounts;
}

Amounts Readers::ledger(const std::string& arguments) const {
  // The amount first: it holds no bar, and a name may.
  const std::string said =
      run("ledger --init-file /dev/null -f '" + file_.string() +
          "' balance --flat --no-total --format '%(display_total)|%(account)\\n' " + arguments);
  Amounts amounts;
  for (std::size_t at = 0; at < said.size();) {
    const std::size_t bar = said.find('|', at);
    const std::size_t end = said.find('\n', at);
    if (bar == std::string::npos || end < bar) throw std::runtime_error("ledger said: " + said);
    add(amounts, said.substr(bar + 1, end - bar - 1), amount(std::string_view{said}.substr(at, bar - at)));
    at = end + 1;
  }
  return amounts;
}

}  // namespace secondpull::test
