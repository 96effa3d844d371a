#pragma once

#include <functional>
#include <vector>

#include <QComboBox>
#include <QLineEdit>
#include <QWidget>

#include "core/shop/shop.h"
#include "core/shop/words.h"

namespace secondpull::app {

class Session;

/// One of a few words as a row of flat buttons; arrow keys, the first letter or the number of the word
/// choose. The first word is chosen until another is.
class WordRow : public QWidget {
  Q_OBJECT
 public:
  explicit WordRow(const QString& name, const QStringList& words, QWidget* parent = nullptr);
  int current() const;
  void setCurrent(int index);               ///< -1: none of them
  void setWords(const QStringList& words);  ///< as many as there are: the same words with other counts

 signals:
  void chosen(int index);  ///< by the person

 protected:
  void keyPressEvent(QKeyEvent* event) override;
  void focusInEvent(QFocusEvent* event) override;
  void focusOutEvent(QFocusEvent* event) override;
  void paintEvent(QPaintEvent* event) override;

 private:
  struct Impl;
  Impl* impl_;  // a child object
};

/// A line in which a person, part or machine is picked by typing any bit of its name; a name that is not
/// there yet makes a new one when the form is saved. isNew() says so beside the field.
class RecordPicker : public QLineEdit {
  Q_OBJECT
 public:
  enum class Of { person, part, machine_here, machine_any, machine_or_lot };
  RecordPicker(Session& session, Of of, const QString& field, QWidget* parent = nullptr);
  /// The id of the record that the text names exactly, if any.
  template <class Id>
  std::optional<Id> picked() const {
    const auto id = pickedNumber();
    return id ? std::optional<Id>{static_cast<Id>(*id)} : std::nullopt;
  }
  /// Likewise, but nothing if the record of that name is of another kind (ids are of one counter).
  template <class Id>
  std::optional<Id> pickedIn(const Shop& shop) const {
    const auto id = picked<Id>();
    return id && shop.find(*id) != nullptr ? id : std::nullopt;
  }
  bool isNew() const;  ///< something is typed that names no record
  void setPicked(std::int64_t id);
  void reload();  ///< after records changed

 signals:
  void pickedChanged();

 protected:
  void paintEvent(QPaintEvent* event) override;  ///< and the word "new" at its end

 private:
  std::optional<std::int64_t> pickedNumber() const;
  struct Impl;
  Impl* impl_;
};

}  // namespace secondpull::app
