#pragma once

#include <tuple>

#include "db/rows/columns.h"

namespace secondpull::db {

template <>
struct Rows<TaxPaid> {
  static constexpr const char* table = "tax_paid";
  static constexpr auto columns = std::tuple{
      Column{"id", &TaxPaid::id},       Column{"entered", &TaxPaid::entered}, Column{"date", &TaxPaid::date},
      Column{"place", &TaxPaid::place}, Column{"amount", &TaxPaid::amount},
  };
};

template <>
struct Rows<Trip> {
  static constexpr const char* table = "trips";
  static constexpr auto columns = std::tuple{
      Column{"id", &Trip::id},
      Column{"entered", &Trip::entered},
      Column{"date", &Trip::date},
      Column{"miles", &Trip::miles},
      Column{"purpose", &Trip::purpose},
      Column{"destination", &Trip::destination},
      Column{"machine_id", &Trip::machine},
      Column{"acquisition_id", &Trip::acquisition},
  };
};

template <>
struct Rows<Expense> {
  static constexpr const char* table = "expenses";
  static constexpr auto columns = std::tuple{
      Column{"id", &Expense::id},         Column{"entered", &Expense::entered},
      Column{"date", &Expense::date},     Column{"category", &Expense::category},
      Column{"amount", &Expense::amount}, Column{"note", &Expense::note},
  };
};

}  // namespace secondpull::db
