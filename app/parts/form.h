#pragma once

#include <functional>
#include <optional>

#include <QFrame>
#include <QHash>

#include "core/result.h"

class QGridLayout;
class QLabel;
class QLineEdit;
class QPushButton;

namespace secondpull::app {

class Session;
class TypedEdit;

/// A form in place: labelled fields in one or two columns, Enter saves, Esc leaves. What is typed is kept as
/// a draft one second after the last key, under `name`, and offered back ("you were logging a machine: go
/// on?") when the form is opened again; saving or discarding drops it. A problem is shown under the field
/// that it names, and what was typed stays.
class Form : public QFrame {
  Q_OBJECT
 public:
  Form(Session& session, const QString& name, const QString& title, QWidget* parent = nullptr);
  /// Adds a field under a label; `field` is the name that problems use. The widget is QLineEdit, TypedEdit,
  /// RecordPicker, WordRow, QComboBox, QPlainTextEdit or QCheckBox (these take part in drafts).
  void addField(const QString& field, const QString& label, QWidget* widget, int column_span = 1);
  void addWide(QWidget* widget);  ///< a whole row, no label
  /// Shows or hides a field with its label; a hidden one keeps what it holds and reports no problem.
  void setFieldShown(const QString& field, bool shown);
  /// What a wide widget holds, as text of its own, takes part in the draft too. The page calls noteEdited()
  /// when it changes.
  void setExtraDraft(std::function<QString()> write, std::function<void(const QString&)> read);
  void noteEdited();
  void setTitleShown(bool shown);  ///< to eyes; a screen reader always has it
  void setColumns(int columns);    ///< fields side by side, 1 to 5
  void setSaveText(const QString& text);
  /// What Enter does: nothing if it worked, else the problem. Fields with problems of their own are shown
  /// first.
  void onSave(std::function<std::optional<Problem>()> save);
  void open();   ///< shows it, offers the draft if there is one, focuses the first field
  void leave();  ///< hides it; what was typed stays as the draft
  void clear();  ///< empties the fields and drops the draft
  void empty();  ///< empties the fields; the draft stays for when it is opened
  /// What stands in the fields was put there by the page: no draft of it until the person changes something.
  void noteFilled();
  /// Turns to the draft of another name, for a form that is about one thing after another; what was typed so
  /// far is kept under the present one.
  void setDraftName(const QString& name);
  /// Shows what is wrong with fields by themselves; whether anything is.
  bool showOwnProblems();
  void showProblem(const Problem& problem);

 signals:
  void saved();
  void left();

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  void hideEvent(QHideEvent* event) override;  ///< the draft is kept, at the latest now

 private:
  struct Impl;
  Impl* impl_;
};

/// What a screen shows while it has nothing: one sentence on what goes here and the first step as a button.
class EmptyState : public QWidget {
  Q_OBJECT
 public:
  EmptyState(const QString& icon_name, const QString& sentence, const QString& step,
             QWidget* parent = nullptr);

 signals:
  void stepTaken();
};

/// A figure that says how it came about when asked: click, or Space while focused.
class WhyFigure : public QWidget {
  Q_OBJECT
 public:
  WhyFigure(const QString& label, QWidget* parent = nullptr);
  void setFigure(const QString& text, const QString& why);  ///< why: rich text; empty: nothing to ask
  void setNote(const QString& small);                       ///< a faded word beside it: "a guess", "so far"
  void setShrinks();  ///< with large text the figure is no larger than a subheading: it needs no more

 protected:
  void changeEvent(QEvent* event) override;

 private:
  void fit();
  struct Impl;
  Impl* impl_;
};

}  // namespace secondpull::app
