// How machines leave, and come back: listings.csv, offers.csv, sales.csv, returns.csv, allowances.csv,
// tax_paid.csv, disposals.csv.
#include "db/exchange/columns.h"

namespace secondpull::db {
namespace {

constexpr Column<Listing> kListings[] = {
    must<&Listing::machine>("machine"), must<&Listing::date>("date"),      may<&Listing::channel>("channel"),
    must<&Listing::asking>("asking"),   may<&Listing::sold_as>("sold_as"), may<&Listing::ended>("ended"),
};

constexpr Column<Offer> kOffers[] = {
    must<&Offer::machine>("machine"), must<&Offer::date>("date"),  must<&Offer::amount>("amount"),
    may<&Offer::who>("who"),          may<&Offer::comes>("comes"), may<&Offer::result>("result"),
};

constexpr Column<Sale> kSales[] = {
    must<&Sale::machine>("machine"),    must<&Sale::date>("date"),
    may<&Sale::buyer>("buyer"),         must<&Sale::price>("price"),
    may<&Sale::sales_tax>("sales_tax"), may<&Sale::fee>("fee"),
    may<&Sale::delivery>("delivery"),   may<&Sale::payment>("payment"),
    may<&Sale::sold_as>("sold_as"),     may<&Sale::warranty_days>("warranty_days"),
    may<&Sale::place>("place"),
};

constexpr Column<Return> kReturns[] = {
    must<&Return::machine>("machine"),
    must<&Return::date>("date"),
    must<&Return::refunded>("refunded"),
    may<&Return::note>("note"),
};

constexpr Column<Allowance> kAllowances[] = {
    must<&Allowance::machine>("machine"), must<&Allowance::date>("date"),
    must<&Allowance::amount>("amount"),   may<&Allowance::sales_tax>("sales_tax"),
    may<&Allowance::note>("note"),
};

constexpr Column<TaxPaid> kTaxPaid[] = {
    must<&TaxPaid::date>("date"),
    may<&TaxPaid::place>("place"),
    must<&TaxPaid::amount>("amount"),
};

constexpr std::string_view kHulkHere = "here";

/// A day, or `here` for a hulk that has not left.
Result<void> read_hulk_gone(std::string_view cell, std::string_view column, const ReadContext& context,
                            Disposal& disposal) {
  if (cell == kHulkHere) {
    disposal.hulk_here = true;
    return {};
  }
  // 0 in a cell that must be empty counts as empty.
  if (cell == "0" && disposal.how != DisposalKind::parted_out) return {};
  const auto day = CellOf<Date>::read(cell, column, context);
  if (!day)
    return problem(fmt::format("\"{}\" is neither a day (YYYY-MM-DD) nor \"{}\".", cell, kHulkHere),
                   std::string{column}, std::string{cell});
  disposal.hulk_gone = *day;
  return {};
}
void write_hulk_gone(const Disposal& disposal, const Shop& shop, std::string& out) {
  if (disposal.hulk_here)
    out += kHulkHere;
  else if (disposal.hulk_gone)
    CellOf<Date>::write(*disposal.hulk_gone, shop, out);
}

constexpr Column<Disposal> kDisposals[] = {
    must<&Disposal::machine>("machine"),
    must<&Disposal::date>("date"),
    must<&Disposal::how>("how"),
    may<&Disposal::proceeds>("proceeds"),
    may<&Disposal::hulk_value>("hulk_value"),
    {"hulk_gone", false, read_hulk_gone, write_hulk_gone},
};

/// Only a donor leaves a hulk; 0 in a cell that must be empty counts as empty.
void tidy_disposal(Disposal& disposal) {
  if (disposal.how != DisposalKind::parted_out && disposal.hulk_value == Money{}) disposal.hulk_value.reset();
}

}  // namespace

template <>
const Format<Listing>& format_of<Listing>() {
  static constexpr Format<Listing> format{"listings.csv", kListings};
  return format;
}
template <>
const Format<Offer>& format_of<Offer>() {
  static constexpr Format<Offer> format{"offers.csv", kOffers};
  return format;
}
template <>
const Format<Sale>& format_of<Sale>() {
  static constexpr Format<Sale> format{"sales.csv", kSales};
  return format;
}
template <>
const Format<Return>& format_of<Return>() {
  static constexpr Format<Return> format{"returns.csv", kReturns};
  return format;
}
template <>
const Format<Allowance>& format_of<Allowance>() {
  static constexpr Format<Allowance> format{"allowances.csv", kAllowances};
  return format;
}
template <>
const Format<TaxPaid>& format_of<TaxPaid>() {
  static constexpr Format<TaxPaid> format{"tax_paid.csv", kTaxPaid};
  return format;
}
template <>
const Format<Disposal>& format_of<Disposal>() {
  static constexpr Format<Disposal> format{"disposals.csv", kDisposals, tidy_disposal};
  return format;
}

}  // namespace secondpull::db
