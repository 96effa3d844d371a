#pragma once

#include <tuple>

#include "db/rows/columns.h"

namespace secondpull::db {

template <>
struct Rows<Forecast> {
  static constexpr const char* table = "forecasts";
  static constexpr auto columns = std::tuple{
      Column{"id", &Forecast::id},
      Column{"entered", &Forecast::entered},
      Column{"machine_id", &Forecast::machine},
      Column{"fault_id", &Forecast::fault},
      Column{"date", &Forecast::date},
      Column{"chance_revived", &Forecast::chance_revived},
      Column{"cash", &Forecast::cash},
      Column{"low", &Forecast::low},
      Column{"high", &Forecast::high},
      Column{"hours", &Forecast::hours},
      Column{"days", &Forecast::days},
      Column{"price", &Forecast::price},
      Column{"sunk_cash", &Forecast::sunk_cash},
      Column{"sunk_hours", &Forecast::sunk_hours},
  };
};

template <>
struct Rows<ForecastCause> {
  static constexpr const char* table = "forecast_causes";
  static constexpr auto columns = std::tuple{
      Column{"id", &ForecastCause::id},
      Column{"entered", &ForecastCause::entered},
      Column{"forecast_id", &ForecastCause::forecast},
      Column{"cause", &ForecastCause::cause},
      Column{"chance", &ForecastCause::chance},
  };
};

template <>
struct Rows<ListingText> {
  static constexpr const char* table = "listing_texts";
  static constexpr auto columns = std::tuple{
      Column{"id", &ListingText::id},
      Column{"entered", &ListingText::entered},
      Column{"machine_id", &ListingText::machine},
      Column{"date", &ListingText::date},
      Column{"text", &ListingText::text},
  };
};

template <>
struct Rows<Deposit> {
  static constexpr const char* table = "deposits";
  static constexpr auto columns = std::tuple{
      Column{"id", &Deposit::id},
      Column{"entered", &Deposit::entered},
      Column{"offer_id", &Deposit::offer},
      Column{"date", &Deposit::date},
      Column{"amount", &Deposit::amount},
      Column{"payment", &Deposit::payment},
      Column{"returned", &Deposit::returned},
  };
};

}  // namespace secondpull::db
