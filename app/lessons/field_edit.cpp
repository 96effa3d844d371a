#include "app/lessons/field_edit.h"

#include <QCheckBox>
#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>

#include "app/parts/flow.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"

namespace secondpull::app {
namespace {

using Kind = FieldSpec::Kind;

constexpr int kFewest = 2, kMost = 6;  // lines that a text shows at once
constexpr int kTextPad = 14;
constexpr int kShortLine = 12 * kGrid;

QString objectOf(const FieldSpec& field, const QString& part = {}) {
  return part.isEmpty() ? "knowledge." + field.key : QStringLiteral("knowledge.%1.%2").arg(field.key, part);
}

/// One line, or low, usual and high side by side.
class LineField : public FieldEdit {
 public:
  LineField(const FieldSpec& field, QWidget* parent) : FieldEdit(parent) {
    auto* row = new QHBoxLayout{this};
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(kGrid);
    const bool is_three = field.kind == Kind::three;
    const QStringList captions =
        is_three ? QStringList{tr("low"), tr("usual"), tr("high")} : QStringList{QString{}};
    for (int at = 0; at < captions.size(); ++at) {
      auto* line = new QLineEdit{this};
      line->setObjectName(objectOf(field, is_three ? QString::number(at + 1) : QString{}));
      line->setAccessibleName(is_three ? QStringLiteral("%1, %2").arg(field.label, captions[at])
                                       : field.label);
      if (is_three) {
        row->addWidget(faded(captions[at], this));
        line->setFixedWidth(grown(kShortLine));
      }
      row->addWidget(line);
      connect(line, &QLineEdit::textEdited, this, &FieldEdit::edited);
      connect(line, &QLineEdit::returnPressed, this, &FieldEdit::entered);
      cells_.push_back(line);
    }
    if (is_three) row->addStretch(1);
    setFocusProxy(cells_.front());
  }
  Rows rows() const override {
    QStringList cells;
    for (const QLineEdit* cell : cells_)
      cells << cell->text();
    return {cells};
  }
  void setRows(const Rows& rows) override {
    for (std::size_t at = 0; at < cells_.size(); ++at) {
      cells_[at]->setText(rows.empty() ? QString{} : rows.front().value(static_cast<qsizetype>(at)));
      cells_[at]->setCursorPosition(0);
    }
  }
  void start() override { cells_.front()->setFocus(); }

 private:
  std::vector<QLineEdit*> cells_;
};

/// Sentences, or a thing a line.
class TextField : public FieldEdit {
 public:
  TextField(const FieldSpec& field, QWidget* parent)
      : FieldEdit(parent), is_lines_{field.kind == Kind::lines}, text_{new QPlainTextEdit{this}} {
    auto* row = new QHBoxLayout{this};
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(text_);
    text_->setObjectName(objectOf(field));
    text_->setAccessibleName(field.label);
    text_->setTabChangesFocus(true);
    setFocusProxy(text_);
    connect(text_, &QPlainTextEdit::textChanged, this, [this] {
      fit();
      if (!setting_) emit edited();
    });
    fit();
  }
  Rows rows() const override {
    if (!is_lines_) return {{text_->toPlainText().simplified()}};
    Rows rows;
    for (const QString& line : text_->toPlainText().split(QLatin1Char('\n')))
      if (!line.trimmed().isEmpty()) rows.push_back({line.trimmed()});
    return rows;
  }
  void setRows(const Rows& rows) override {
    QStringList lines;
    for (const QStringList& row : rows)
      lines << row.value(0);
    setting_ = true;
    text_->setPlainText(lines.join(QLatin1Char('\n')));
    setting_ = false;
  }
  void start() override { text_->setFocus(); }

 private:
  void fit() {
    const int lines = is_lines_ ? text_->document()->blockCount() : 3;
    text_->setFixedHeight(std::clamp(lines, kFewest, kMost) * text_->fontMetrics().lineSpacing() + kTextPad);
  }
  bool is_lines_;
  bool setting_ = false;
  QPlainTextEdit* text_;
};

class ChoiceField : public FieldEdit {
 public:
  ChoiceField(const FieldSpec& field, QWidget* parent) : FieldEdit(parent), box_{new QComboBox{this}} {
    auto* row = new QHBoxLayout{this};
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(box_);
    row->addStretch(1);
    for (const auto& [kept, shown] : field.words)
      box_->addItem(shown, kept);
    box_->setObjectName(objectOf(field));
    box_->setAccessibleName(field.label);
    setFocusProxy(box_);
    connect(box_, &QComboBox::activated, this, &FieldEdit::edited);
  }
  Rows rows() const override { return {{box_->currentData().toString()}}; }
  void setRows(const Rows& rows) override {
    box_->setCurrentIndex(std::max(0, box_->findData(rows.empty() ? QString{} : rows.front().value(0))));
  }
  void start() override { box_->setFocus(); }

 private:
  QComboBox* box_;
};

class KindsField : public FieldEdit {
 public:
  KindsField(const FieldSpec& field, QWidget* parent) : FieldEdit(parent) {
    auto* row = new Flow{this, 2 * kGrid};
    row->setContentsMargins(0, 0, 0, 0);
    QSizePolicy policy(QSizePolicy::Preferred, QSizePolicy::Minimum);
    policy.setHeightForWidth(true);
    setSizePolicy(policy);
    for (const MachineKind kind : all_words<MachineKind>()) {
      const auto name = word(kind);
      const QString words = QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size()));
      auto* box = new QCheckBox{words, this};
      box->setObjectName(objectOf(field, words));
      row->addWidget(box);
      connect(box, &QCheckBox::clicked, this, &FieldEdit::edited);
      boxes_.push_back(box);
    }
    setFocusProxy(boxes_.front());
  }
  Rows rows() const override {
    Rows rows;
    for (const QCheckBox* box : boxes_)
      if (box->isChecked()) rows.push_back({box->text()});
    return rows;
  }
  void setRows(const Rows& rows) override {
    for (QCheckBox* box : boxes_)
      box->setChecked(std::any_of(rows.begin(), rows.end(),
                                  [&](const QStringList& row) { return row.value(0) == box->text(); }));
  }
  void start() override { boxes_.front()->setFocus(); }

 private:
  std::vector<QCheckBox*> boxes_;
};

}  // namespace

FieldEdit* makeFieldEdit(const FieldSpec& field, QWidget* parent) {
  switch (field.kind) {
    case Kind::words:
    case Kind::lines:
      return new TextField{field, parent};
    case Kind::choice:
      return new ChoiceField{field, parent};
    case Kind::kinds:
      return new KindsField{field, parent};
    default:
      return new LineField{field, parent};
  }
}

}  // namespace secondpull::app
