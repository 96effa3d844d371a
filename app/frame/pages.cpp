#include "app/frame/pages.h"

#include "app/bench/bench_page.h"
#include "app/books/books_page.h"
#include "app/lessons/lessons_page.h"
#include "app/sale/sale_page.h"
#include "app/scout/scout_page.h"
#include "app/shelf/shelf_page.h"
#include "app/yard/evening_page.h"
#include "app/yard/spent_page.h"
#include "app/yard/yard_page.h"

namespace secondpull::app {

std::span<const PageEntry> pageEntries() {
  static constexpr PageEntry kEntries[] = {
      {"Yard", "Alt+1", false, &makeYardPage},       {"Scout", "Alt+6", false, &makeScoutPage},
      {"Bench", "Alt+2", false, &makeBenchPage},     {"Shelf", "Alt+3", false, &makeShelfPage},
      {"For sale", "Alt+4", false, &makeSalePage},   {"Books", "Alt+5", false, &makeBooksPage},
      {"Lessons", "Alt+7", false, &makeLessonsPage}, {"Evening", "Ctrl+E", true, &makeEveningPage},
      {"Spent", "Ctrl+M", true, &makeSpentPage},
  };
  return kEntries;
}

}  // namespace secondpull::app
