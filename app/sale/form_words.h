#pragma once

#include <optional>

#include <QStringList>

#include "core/shop/words.h"

class QLabel;
class QLineEdit;

namespace secondpull::app {

class Session;
class WordRow;

// What the forms of the For sale screen have in common.

/// "not said", "running", "as is": the words of a WordRow for how a machine is sold.
QStringList soldAsWords();
std::optional<SoldAs> soldAs(const WordRow& row);
void setSoldAs(WordRow& row, std::optional<SoldAs> value);

/// What to have done before a machine goes as running, in faded words.
QLabel* runningCaution(const QString& object_name);

/// Offers the words of earlier records while one types.
void suggest(QLineEdit& line, QStringList words);
/// Offers how earlier sales and deposits were paid.
void suggestPayments(const Session& session, QLineEdit& line);

QString textOf(std::string_view text);
std::string textOf(const QLineEdit& line);  ///< without spaces around it

}  // namespace secondpull::app
