#include "app/frame/pages.h"

#include "app/yard/evening_page.h"
#include "app/yard/spent_page.h"
#include "app/yard/yard_page.h"

namespace secondpull::app {

std::span<const PageEntry> pageEntries() {
  static constexpr PageEntry kEntries[] = {
      {"Yard", "Alt+1", false, &makeYardPage},
      {"Evening", "Ctrl+E", true, &makeEveningPage},
      {"Spent", "Ctrl+M", true, &makeSpentPage},
  };
  return kEntries;
}

}  // namespace secondpull::app
