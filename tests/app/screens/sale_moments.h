#pragma once

#include <functional>

#include <QStringList>

namespace secondpull::app {

class MainWindow;
class Session;

/// Until the suggestion of the machine that is shown is there: it comes in the background.
void waitForSuggestion(MainWindow& window);

/// Shows, light and dark, what For sale says of a machine: its offers, its suggestion with each "why?" open,
/// a deal of several things with a deposit, its listing, and the machine sold; `take` takes a picture of that
/// name. The records are afterwards as they were. Returns what went wrong.
QStringList drawSaleMoments(Session& session, MainWindow& window,
                            const std::function<void(const QString& name)>& take);

}  // namespace secondpull::app
