#pragma once

#include <QString>
#include <QStringList>

class QWidget;

namespace secondpull::app {

class Session;

/// Writes every paper of the shop as PDF into the folder: tags, bench sheets (with a plan and to write on),
/// the last receipt, a listing, and the pocket card where the window has one. Returns what went wrong.
QStringList writePapers(Session& session, QWidget& window, const QString& folder);

}  // namespace secondpull::app
