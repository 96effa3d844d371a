#pragma once

#include <functional>
#include <vector>

#include <QString>

#include "app/frame/page.h"

namespace secondpull::app {

class Session;

/// One thing that the What-now line offers for what was typed.
struct Found {
  QString icon;
  QString title;   ///< "#14 Tarnwick 21 self-propelled", "log a machine"
  QString detail;  ///< where it stands, which field matched, or the key that does it
  std::function<void()> run;
};

/// What the finder may turn to.
struct Ways {
  std::function<void(MachineId)> open_machine;
  std::function<void(const QString& page)> open_page;
  std::function<void(const QString& sentence)> say;
};

/// What the typed text may mean, the likeliest first: a tag typed or scanned ("#14", "14"), then deeds whose
/// words it begins, then machines, people, parts and the rest that hold it. Nothing typed: the deeds of the
/// place.
std::vector<Found> findWhatNow(const QString& typed, const Session& session,
                               const std::vector<Page::Deed>& deeds, const Ways& ways);

}  // namespace secondpull::app
