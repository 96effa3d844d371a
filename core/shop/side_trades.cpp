#include "core/shop/side_trades.h"

#include <fmt/format.h>

#include "core/shop/checks.h"
#include "core/shop/codes.h"
#include "core/shop/describe.h"
#include "core/typed_words.h"

namespace secondpull {
namespace {

Objection check_given(Money amount, const Shop& shop, std::string_view field) {
  if (const Objection wrong = check_amount(amount, shop, field)) return wrong;
  if (amount.is_zero()) return Problem{"Say how much it was.", std::string{field}, "0"};
  return std::nullopt;
}

std::string name_of(const Shop& shop, const PersonChoice& choice) {
  const Person* const known = choice.known ? shop.find(*choice.known) : nullptr;
  return known != nullptr ? known->name : std::string{trimmed(choice.new_name)};
}

}  // namespace

Result<Change> pay_tax(const Shop& shop, const TaxPaid& paid) {
  if (const Objection wrong =
          first_of({check_day(paid.date, "date"), check_given(paid.amount, shop, "amount")}))
    return tl::unexpected(*wrong);
  Change change{shop,
                fmt::format("Handed on {} of sales tax{}", shown_short(paid.amount, shop.settings.currency),
                            paid.place.empty() ? "" : " to " + paid.place)};
  change.add(paid);
  return change;
}

Result<Change> give_allowance(const Shop& shop, const Allowance& allowance) {
  if (const Objection wrong = first_of({check_machine(shop, allowance.machine, allowance.date),
                                        check_given(allowance.amount, shop, "amount"),
                                        check_amount(allowance.sales_tax, shop, "sales_tax")}))
    return tl::unexpected(*wrong);
  Change change{shop, fmt::format("Gave back {} on {}", shown_short(allowance.amount, shop.settings.currency),
                                  called(shop, allowance.machine))};
  change.add(allowance);
  if (const Objection turns = check_turns(shop, change, allowance.machine)) return tl::unexpected(*turns);
  return change;
}

Result<Change> sell_part(const Shop& shop, const NewPartSale& sale) {
  if (const Objection wrong =
          first_of({check_quantity(sale.quantity), check_day(sale.date, "date"),
                    check_amount(sale.price, shop, "price"), check_amount(sale.sales_tax, shop, "sales_tax"),
                    check_amount(sale.fee, shop, "fee")}))
    return tl::unexpected(*wrong);
  const Part* const part = shop.find(sale.part);
  if (part == nullptr)
    return problem("That part is not in the shop's records any more: choose another one.", "part");
  const std::string to = name_of(shop, sale.buyer);
  Change change{shop,
                fmt::format("Sold {} x {}{} for {}", sale.quantity, part->name, to.empty() ? "" : " to " + to,
                            shown_short(sale.price, shop.settings.currency))};
  const auto buyer = choose_person(shop, change, sale.buyer, "buyer");
  if (!buyer) return tl::unexpected(buyer.error());
  change.add(PartSale{.date = sale.date,
                      .part = sale.part,
                      .quantity = sale.quantity,
                      .price = sale.price,
                      .buyer = *buyer,
                      .sales_tax = sale.sales_tax,
                      .fee = sale.fee,
                      .place = sale.place});
  if (const Objection lacking = check_stock(shop, change, sale.part)) return tl::unexpected(*lacking);
  return change;
}

Result<Change> take_in_found(const Shop& shop, Date date, const PartChoice& part, std::int64_t quantity,
                             Money cost_each) {
  if (const Objection wrong = first_of(
          {check_quantity(quantity), check_day(date, "date"), check_amount(cost_each, shop, "price")}))
    return tl::unexpected(*wrong);
  Change change{shop, ""};
  PartChooser parts{shop, change};
  const auto id = parts.choose(part);
  if (!id) return tl::unexpected(id.error());
  change.set_title(fmt::format("Found {} x {}", quantity, parts.name(*id)));
  const OrderId order = change.add(Order{.code = next_order_code(shop), .date = date, .arrived = date});
  change.add(OrderLine{.order = order, .part = *id, .quantity = quantity, .price = cost_each});
  return change;
}

}  // namespace secondpull
