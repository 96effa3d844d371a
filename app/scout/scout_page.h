#pragma once

#include "app/frame/page.h"

namespace secondpull::app {

/// Scout: a find not bought yet. At the left its description (lead_form.h), at the right what to offer and
/// what to ask (offer_panel.h), below the finds so far; in the place of all this the pocket card
/// (pocket_panel.h). Object names: page "scoutPage"; "scoutView" (find, pocket card), "scoutNew", "scoutBuy",
/// "scoutPassOn", "scoutGone", "scoutPrice" (what was paid, shown once "scoutBuy" is pressed), "scoutTakeIn",
/// "scoutTable".
Page* makeScoutPage(Session& session, QWidget* parent);

}  // namespace secondpull::app
