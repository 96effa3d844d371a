#pragma once

#include <filesystem>
#include <functional>
#include <optional>

#include <QWidget>

#include "app/frame/long_work.h"
#include "db/store.h"

class QComboBox;
class QLabel;
class QLineEdit;
class QPlainTextEdit;

namespace secondpull::app {

class TenthsEdit;

/// The first thing a person sees: start with what is here, look at the demo shop, or import a folder. Also
/// where a shop that could not be opened says why.
class FirstRun : public QWidget {
  Q_OBJECT
 public:
  using Clock = std::function<db::Instant()>;
  /// `home` is the folder in which new shops are made.
  FirstRun(std::filesystem::path home, Clock clock, QWidget* parent = nullptr);
  ~FirstRun() override;
  void showProblem(const QString& sentence);
  /// The three ways, as their buttons do them.
  void startNew();
  void lookAtDemo();
  void importFolder(const std::filesystem::path& folder);
  /// Makes a new shop of a backup that is one file.
  void restoreFile(const std::filesystem::path& file);
  /// The opened shop; once.
  std::optional<db::Store> takeStore();

 signals:
  void ready(bool new_shop);  ///< takeStore() has it; a new shop is still empty
  void wantsShop(const std::filesystem::path& folder);

 private:
  QWidget* makeNewForm();
  void create();
  void import(const std::filesystem::path& from, const std::filesystem::path& into);
  /// Makes a shop off the window's thread in this folder, whose parent is made if need be.
  void make(const std::filesystem::path& into,
            std::function<Result<db::Store>(const LongWork::Reins& reins)> shop);
  void setBusy(bool busy);
  std::filesystem::path freeFolder(const std::string& name) const;

  std::filesystem::path home_;
  Clock clock_;
  LongWork* work_;
  std::shared_ptr<std::optional<db::Store>> store_;
  QWidget* ways_;
  QWidget* new_form_;
  QLineEdit* name_;
  QComboBox* currency_;
  QLineEdit* hour_value_;
  TenthsEdit* hours_a_week_;
  QLabel* problem_;
  QPlainTextEdit* details_;
  QWidget* busy_;
  QLabel* step_;
};

}  // namespace secondpull::app
