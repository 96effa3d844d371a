#pragma once

#include <span>

#include "app/frame/page.h"

namespace secondpull::app {

/// A screen as the frame knows it before it is made: pages are made when they are first wanted.
struct PageEntry {
  const char* word;  ///< as Page::word says it, untranslated
  const char* key;
  bool small;  ///< stands smaller, at the right end of the wire
  Page* (*make)(Session& session, QWidget* parent);
};

/// The screens in their order on the wire.
std::span<const PageEntry> pageEntries();

}  // namespace secondpull::app
