#pragma once

#include <QWidget>

namespace secondpull::app {

class Page;
class Session;

/// Evening: one page for what was not written down in the day. The machines touched lately are offered with a
/// tick and guessed minutes; besides them the drive and what was spent. Enter writes all of it down as one
/// action.
///
/// Object names: page "eveningPage", form "yard.evening"; a row each machine, numbered from 0: "touched0"
/// (the tick), "minutes0", "work0", "used0" (a part from the shelf, or a material), "cost0" (of a material);
/// "dayEdit", "otherPicker" (adds a machine that is not offered), "milesEdit", "purposeEdit",
/// "destinationEdit", "driveForPicker"; spent rows "spentAmount0", "spentCategory0", "spentNote0" (a new one
/// appears when the last is begun); "save".
Page* makeEveningPage(Session& session, QWidget* parent);

}  // namespace secondpull::app
