#include "core/shop/spent.h"

#include <utility>
#include <variant>

#include <fmt/format.h>

namespace secondpull {
namespace {

std::string name_of(const Shop& shop, const PersonChoice& person) {
  if (!person.known) return person.new_name;
  const Person* known = shop.find(*person.known);
  return known == nullptr ? std::string{} : known->name;
}

std::string with_place(const std::string& what, const std::string& where) {
  if (where.empty()) return what;
  return what.empty() ? "from " + where : fmt::format("{}, from {}", what, where);
}

Result<Change> material_of(const Shop& shop, const SpentEntry& entry) {
  if (!entry.machine) return problem("Say which machine it was for.", "machine");
  if (entry.what.empty()) return problem("Say what was bought.", "what");
  return add_material(shop, *entry.machine, entry.date, with_place(entry.what, name_of(shop, entry.where)),
                      entry.amount);
}

Result<Change> order_of(const Shop& shop, const SpentEntry& entry) {
  if (!entry.part.known && entry.part.new_name.empty()) return problem("Say which part was bought.", "part");
  if (entry.quantity < 1)
    return problem("At least one piece must have been bought.", "quantity", std::to_string(entry.quantity));
  const Money each = Money::from_minor(entry.amount.minor() / entry.quantity);
  NewOrder order{
      .date = entry.date, .supplier = entry.where, .freight = entry.amount - each * entry.quantity};
  if (entry.in_hand) order.arrived = entry.date;
  order.lines.push_back({.part = entry.part, .quantity = entry.quantity, .price = each});
  order.lines.back().for_machine = entry.machine;
  return place_order(shop, order);
}

Result<Change> expense_of(const Shop& shop, const SpentEntry& entry) {
  if (entry.category.empty()) return problem("Say what kind of cost it is.", "category");
  return add_expense(shop, entry.date, entry.category, entry.amount,
                     with_place(entry.note, name_of(shop, entry.where)));
}

Result<Change> money_out(const Shop& shop, const SpentEntry& entry) {
  switch (entry.what_for) {
    case SpentEntry::For::machine:
      return material_of(shop, entry);
    case SpentEntry::For::order:
      return order_of(shop, entry);
    case SpentEntry::For::shop:
      break;
  }
  return expense_of(shop, entry);
}

/// Ties the paper to what the change adds: the order, the expense or the material's machine.
void tie(Photo& photo, const Change& change) {
  for (const Edit& edit : change.edits()) {
    if (const auto* order = std::get_if<Order>(&edit.record)) photo.order = order->id;
    if (const auto* expense = std::get_if<Expense>(&edit.record)) photo.expense = expense->id;
    if (const auto* material = std::get_if<Material>(&edit.record)) photo.machine = material->machine;
  }
}

}  // namespace

Result<Change> write_spent(const Shop& shop, const SpentEntry& entry) {
  if (entry.amount <= Money{})
    return problem("Money spent is more than zero.", "amount", plain(entry.amount, shop.settings.currency));
  Result<Change> change = money_out(shop, entry);
  if (change && entry.paper) {
    Photo photo{.sha256 = entry.paper->sha256, .name = entry.paper->name};
    tie(photo, *change);
    if (photo.machine) photo.note = "paper: " + entry.what;
    change->add(std::move(photo));
  }
  return change;
}

}  // namespace secondpull
