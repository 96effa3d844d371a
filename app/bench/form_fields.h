#pragma once

#include <string>

#include <QComboBox>
#include <QLineEdit>
#include <QString>

#include "app/parts/form.h"
#include "core/shop/words.h"

namespace secondpull::app {

/// Adds filled-in fields to a form, their object names under a prefix.
class FormFields {
 public:
  FormFields(Form& form, QString prefix) : form_{form}, prefix_{std::move(prefix)} {}

  template <class Widget>
  Widget* add(const char* field, const QString& label, Widget* widget, int span = 1) const {
    widget->setObjectName(prefix_ + QString::fromLatin1(field));
    form_.addField(QString::fromLatin1(field), label, widget, span);
    return widget;
  }
  QLineEdit* text(const char* field, const QString& label, const std::string& content, int span = 1) const {
    return add(field, label, new QLineEdit(QString::fromStdString(content), &form_), span);
  }
  template <class Word>
  QComboBox* words(const char* field, const QString& label, Word chosen) const {
    auto* box = new QComboBox(&form_);
    for (const Word value : all_words<Word>()) {
      const std::string_view name = word(value);
      box->addItem(QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size())));
      if (value == chosen) box->setCurrentIndex(box->count() - 1);
    }
    return add(field, label, box);
  }

 private:
  Form& form_;
  QString prefix_;
};

inline std::string textOf(const QLineEdit* field) {
  return field->text().trimmed().toStdString();
}

/// The value chosen in a box made by FormFields::words.
template <class Word>
Word wordOf(const QComboBox* box) {
  return all_words<Word>()[static_cast<std::size_t>(box->currentIndex())];
}

}  // namespace secondpull::app
