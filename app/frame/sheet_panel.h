#pragma once

#include <filesystem>
#include <optional>
#include <vector>

#include <QFrame>

#include "db/exchange/single_sheet.h"

class QComboBox;
class QGridLayout;
class QLabel;

namespace secondpull::app {

/// Asks of a single sheet what its lines are, and which of its columns is what. The columns whose names say
/// it are chosen already.
class SheetPanel : public QFrame {
  Q_OBJECT
 public:
  explicit SheetPanel(QWidget* parent = nullptr);
  void show(const std::filesystem::path& path, db::SingleSheet sheet);
  const std::filesystem::path& path() const { return path_; }
  const std::optional<db::SingleSheet>& sheet() const { return sheet_; }

  const db::SheetKind& kind() const;
  db::ColumnChoice choice() const;
  db::DayOrder order() const;

 signals:
  void wantsImport();
  void left();

 protected:
  void keyPressEvent(QKeyEvent* event) override;

 private:
  void ask();  ///< for each field of the kind which column it is

  std::filesystem::path path_;
  std::optional<db::SingleSheet> sheet_;
  QLabel* title_;
  QComboBox* kind_;
  QComboBox* order_;
  QGridLayout* grid_;
  std::vector<QComboBox*> columns_;  // one for each field
};

}  // namespace secondpull::app
