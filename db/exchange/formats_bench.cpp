// What is done on machines: faults.csv, findings.csv, labour.csv, materials.csv, expenses.csv.
#include "db/exchange/columns.h"

namespace secondpull::db {
namespace {

constexpr Column<Fault> kFaults[] = {
    must<&Fault::code>("fault"),      must<&Fault::machine>("machine"), must<&Fault::date>("date"),
    must<&Fault::symptom>("symptom"), may<&Fault::cause>("cause"),      may<&Fault::ended>("ended"),
    may<&Fault::how>("how"),          may<&Fault::note>("note"),
};

constexpr Column<Finding> kFindings[] = {
    must<&Finding::machine>("machine"), must<&Finding::date>("date"),      must<&Finding::step>("step"),
    must<&Finding::outcome>("outcome"), may<&Finding::fault>("fault"),     may<&Finding::minutes>("minutes"),
    may<&Finding::cost>("cost"),        may<&Finding::reading>("reading"), may<&Finding::unit>("unit"),
    may<&Finding::note>("note"),
};

constexpr Column<Labour> kLabour[] = {
    may<&Labour::machine>("machine"), may<&Labour::acquisition>("acquisition"),
    must<&Labour::date>("date"),      must<&Labour::minutes>("minutes"),
    must<&Labour::work>("work"),      may<&Labour::note>("note"),
};

constexpr Column<Material> kMaterials[] = {
    must<&Material::machine>("machine"),
    must<&Material::date>("date"),
    must<&Material::what>("what"),
    must<&Material::cost>("cost"),
};

constexpr Column<Expense> kExpenses[] = {
    must<&Expense::date>("date"),
    must<&Expense::category>("category"),
    must<&Expense::amount>("amount"),
    may<&Expense::note>("note"),
};

}  // namespace

template <>
const Format<Fault>& format_of<Fault>() {
  static constexpr Format<Fault> format{"faults.csv", kFaults};
  return format;
}
template <>
const Format<Finding>& format_of<Finding>() {
  static constexpr Format<Finding> format{"findings.csv", kFindings};
  return format;
}
template <>
const Format<Labour>& format_of<Labour>() {
  static constexpr Format<Labour> format{"labour.csv", kLabour};
  return format;
}
template <>
const Format<Material>& format_of<Material>() {
  static constexpr Format<Material> format{"materials.csv", kMaterials};
  return format;
}
template <>
const Format<Expense>& format_of<Expense>() {
  static constexpr Format<Expense> format{"expenses.csv", kExpenses};
  return format;
}

}  // namespace secondpull::db
