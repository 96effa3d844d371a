#pragma once

#include <functional>
#include <vector>

#include <QObject>

#include "core/shop/bench.h"

class QLineEdit;

namespace secondpull::app {

class CountEdit;
class Form;
class MoneyEdit;
class RecordPicker;
class Session;

/// Rows of parts in a form: part, how many, an amount, and for which machine if wanted. Another row follows
/// as soon as the last one is begun, so that typing never stops. Field names are the row's number behind
/// "part", "quantity", "amount" and "machine", from 1: they are its object names and its names in the draft.
class PartRows : public QObject {
  Q_OBJECT
 public:
  /// What the amount of a row means and how it is guessed once a known part is picked.
  struct Amount {
    QString label;
    std::function<std::optional<Money>(PartId)> guess;
  };
  /// Adds the first rows to the form, or as many as its draft has.
  PartRows(Session& session, Form& form, const QString& form_name, Amount amount, bool for_machine);

  struct Row {
    PartChoice part;
    std::int64_t quantity = 1;
    Money amount;
    std::optional<MachineId> machine;
  };
  /// The rows that name a part, in order.
  std::vector<Row> filled() const;
  /// The first thing that keeps them from being saved: an amount without a part, a machine nobody knows.
  std::optional<Problem> problem() const;
  void reload();  ///< after records changed

 signals:
  void edited();

 private:
  struct Fields {
    RecordPicker* part;
    CountEdit* quantity;
    MoneyEdit* amount;
    RecordPicker* machine;  // nullptr where no machine is asked for
  };
  void addRow();
  void guess(const Fields& row);

  Session& session_;
  Form& form_;
  Amount amount_;
  bool for_machine_;
  std::vector<Fields> rows_;
};

}  // namespace secondpull::app
