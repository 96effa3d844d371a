#include <unordered_set>

#include <fmt/format.h>

#include "core/shop/describe.h"
#include "core/shop/rule_breaks.h"

namespace secondpull {
namespace {

std::string hulk_gone_text(const Disposal& disposal) {
  return disposal.hulk_gone ? iso(*disposal.hulk_gone) : disposal.hulk_here ? "here" : "";
}

void check_hulk(const Shop& shop, const Disposal& disposal, RuleBreaks& breaks) {
  const Currency& currency = shop.settings.currency;
  const bool parted = disposal.how == DisposalKind::parted_out;
  // Zero in a cell that must be empty counts as empty.
  if (!parted && disposal.hulk_value && !disposal.hulk_value->is_zero())
    breaks.add(disposal.id, "hulk_value", plain(*disposal.hulk_value, currency),
               "Only a machine parted out leaves a hulk of a value.");
  if (!parted && (disposal.hulk_gone || disposal.hulk_here))
    breaks.add(disposal.id, "hulk_gone", hulk_gone_text(disposal),
               "Only a machine parted out leaves a hulk.");
  if (parted && disposal.hulk_gone && disposal.hulk_here)
    breaks.add(disposal.id, "hulk_gone", hulk_gone_text(disposal), "The hulk is either here or gone.");
  if (parted && disposal.hulk_gone && *disposal.hulk_gone < disposal.date)
    breaks.add(
        disposal.id, "hulk_gone", hulk_gone_text(disposal),
        fmt::format("The hulk cannot have gone before the machine was parted out ({}).", iso(disposal.date)));
  if (parted && disposal.hulk_here && !disposal.proceeds.is_zero())
    breaks.add(disposal.id, "proceeds", plain(disposal.proceeds, currency),
               "The hulk is still here: its scrap money is yet to come.");
}

}  // namespace

void check_disposals(const Shop& shop, RuleBreaks& breaks) {
  for (const Disposal& disposal : shop.all<Disposal>()) {
    if (disposal.how == DisposalKind::kept && !disposal.proceeds.is_zero())
      breaks.add(disposal.id, "proceeds", plain(disposal.proceeds, shop.settings.currency),
                 "A machine kept for own use brings in no money.");
    check_hulk(shop, disposal, breaks);
  }
}

void check_donors(const Shop& shop, RuleBreaks& breaks) {
  std::unordered_set<MachineId> parted_out;
  for (const Disposal& disposal : shop.all<Disposal>())
    if (disposal.how == DisposalKind::parted_out) parted_out.insert(disposal.machine);
  for (const Harvest& line : shop.all<Harvest>())
    if (const Machine* const donor = shop.find(line.donor);
        donor != nullptr && !parted_out.contains(line.donor))
      breaks.add(line.id, "donor", donor->tag,
                 fmt::format("Parts were taken from {}, but no disposal says that it was parted out.",
                             called(*donor)));
}

}  // namespace secondpull
