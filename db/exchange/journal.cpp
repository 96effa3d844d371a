#include "db/exchange/journal.h"

#include <algorithm>
#include <array>
#include <set>
#include <string_view>

#include <fmt/format.h>

#include "core/books/event_name.h"

namespace secondpull::db {

namespace {

constexpr std::string_view kCostOfGoods = "Cost of goods";

bool is_control(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return byte < 0x20 || byte == 0x7F;
}

/// The length of a space beyond ASCII at the start of a text, or 0. hledger takes one for a space like any
/// other, so two of them end a name. Source: Unicode, the characters of category Zs, in UTF-8.
std::size_t wide_space_at(std::string_view text) {
  constexpr std::array<std::string_view, 16> kSpaces{
      "\xC2\xA0",     "\xE1\x9A\x80", "\xE2\x80\x80", "\xE2\x80\x81", "\xE2\x80\x82", "\xE2\x80\x83",
      "\xE2\x80\x84", "\xE2\x80\x85", "\xE2\x80\x86", "\xE2\x80\x87", "\xE2\x80\x88", "\xE2\x80\x89",
      "\xE2\x80\x8A", "\xE2\x80\xAF", "\xE2\x81\x9F", "\xE3\x80\x80"};
  const auto found = std::find_if(kSpaces.begin(), kSpaces.end(),
                                  [text](std::string_view space) { return text.starts_with(space); });
  return found == kSpaces.end() ? 0 : found->size();
}

/// Text of a comment or description: on one line, and without what would begin a comment.
std::string plain_text(std::string text) {
  for (char& c : text) {
    if (is_control(c)) c = ' ';
    if (c == ';') c = ',';
  }
  return text;
}

class Writer {
 public:
  explicit Writer(const Books& books) : books_{books}, shop_{books.shop()} {}

  std::string text() {
    const Currency& currency = shop_.settings.currency;
    out_ +=
        fmt::format("; The books of {}\n\ncommodity {}\n", plain_text(shop_.settings.name), currency.code);
    // Both programs take the number of decimals from here. For none, hledger wants a point at the end that
    // ledger cannot read, so the amounts speak for themselves.
    if (currency.digits > 0)
      out_ +=
          fmt::format("    format {} {}\n",
                      plain(Money::from_minor(power_of_ten(currency.digits + 3)), currency), currency.code);
    for (const Transaction& transaction : books_.transactions())
      add(transaction);
    return std::move(out_);
  }

 private:
  static std::int64_t power_of_ten(int exponent) {
    std::int64_t power = 1;
    for (int i = 0; i < exponent; ++i)
      power *= 10;
    return power;
  }

  void add(const Transaction& transaction) {
    if (transaction.postings.empty()) return;
    std::string event = account_name(event_name(shop_, transaction.event));
    // The code before the description ends at its bracket.
    std::replace(event.begin(), event.end(), ')', '_');
    out_ += fmt::format("\n{} ({}) {}\n    ; event: {}\n", iso(transaction.date), event,
                        plain_text(transaction.what), event);
    std::set<MachineId> machines;
    for (const Posting& posting : transaction.postings)
      if (posting.about) machines.insert(*posting.about);
    if (machines.size() == 1) out_ += fmt::format("    ; tag: {}\n", tag(*machines.begin()));
    for (const Posting& posting : transaction.postings)
      add(posting);
  }

  void add(const Posting& posting) {
    const Currency& currency = shop_.settings.currency;
    out_ += fmt::format("    {}  {} {}", account(posting.account), plain(posting.amount, currency),
                        currency.code);
    if (posting.about) out_ += fmt::format("  ; tag: {}", tag(*posting.about));
    if (posting.account.kind == AccountKind::sales_tax && !posting.account.name.empty())
      out_ += fmt::format("  ; place: {}", account_name(posting.account.name));
    out_ += '\n';
  }

  std::string tag(MachineId machine) const { return account_name(shop_.find(machine)->tag); }

  std::string account(const Account& account) const {
    switch (account.kind) {
      case AccountKind::machines:
        return "Assets:Machines:" + tag(account.machine);
      case AccountKind::parts:
        return "Assets:Parts";
      case AccountKind::cash:
        return "Assets:Cash";
      case AccountKind::sales:
        return "Income:Sales";
      case AccountKind::scrap:
        return "Income:Scrap";
      case AccountKind::cost_of_goods:
        return fmt::format("Expenses:{}", kCostOfGoods);
      case AccountKind::expense:
        return "Expenses:" + account_name(account.name);
      case AccountKind::sales_tax:
        return "Liabilities:Sales tax";
      case AccountKind::owner:
        return "Equity:Owner";
    }
    return {};
  }

  const Books& books_;
  const Shop& shop_;
  std::string out_;
};

}  // namespace

std::string account_name(const std::string& name) {
  std::string written;
  std::size_t wide = 0;  // bytes of a wide space still to come
  for (std::size_t i = 0; i < name.size(); ++i) {
    const char c = name[i];
    if (wide == 0) wide = wide_space_at(std::string_view{name}.substr(i));
    const bool outer_space = c == ' ' && (i == 0 || i + 1 == name.size() || name[i - 1] == ' ');
    // A category of that name would fall together with the cost of goods.
    const bool taken = i == 0 && name == kCostOfGoods;
    // A bracket would begin a date in a comment.
    const bool read_as_own = std::string_view{":;,%["}.find(c) != std::string_view::npos;
    if (wide > 0 || is_control(c) || outer_space || taken || read_as_own)
      written += fmt::format("%{:02X}", static_cast<unsigned char>(c));
    else
      written += c;
    if (wide > 0) --wide;
  }
  return written;
}

std::string journal(const Books& books) {
  return Writer{books}.text();
}

}  // namespace secondpull::db
