#pragma once

#include <QWidget>

namespace secondpull::app {

class Page;
class Session;

/// The Yard: every machine on the place, today in a few lines at its head, a form in place to log a machine
/// or a lot, and the selected machine with its photos at the right.
///
/// Object names: page "yardPage"; "todayLines", "standingRow" (the words by which the table is filtered),
/// "filterEdit", "logButton", table "yardTable", "emptyYard" with its "firstStep". The form:
/// "yard.log-machine", its fields in log_form.h. The strip: "machineStrip", its parts in machine_strip.h.
Page* makeYardPage(Session& session, QWidget* parent);

}  // namespace secondpull::app
