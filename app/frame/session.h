#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include <QObject>
#include <QString>

#include "core/books/books.h"
#include "core/shop/change.h"
#include "db/store.h"

namespace secondpull::learning {
struct KnowledgeBase;
}

namespace secondpull::app {

class Planning;

/// The open shop as the window sees it: the records as they are now, the figures derived from them, and the
/// one way to change them. Lives in the window's thread; the store lives in a writer thread of its own, and
/// perform() waits for it (milliseconds). Long work (import, backup) goes through LongWork (long_work.h).
class Session : public QObject {
  Q_OBJECT
 public:
  using Clock = std::function<db::Instant()>;  ///< tests give their own
  /// Takes the opened store. `today` and `now` come from the clock, so that a picture or a test can fix the
  /// day.
  Session(db::Store store, Clock clock, QObject* parent = nullptr);
  ~Session() override;

  std::shared_ptr<const Shop> shop() const;
  /// The books of the present records, made once a generation. If they cannot be made (a trip without a rate)
  /// the problem is in booksProblem() and the last good books are returned.
  std::shared_ptr<const Books> books() const;
  std::optional<Problem> booksProblem() const;
  // The published tables that the figures of a year are worked out with.
  const MileageRates& mileageRates() const;
  const SelfEmploymentRates& taxRates() const;
  const FormLines& formLines() const;
  /// The knowledge base as this shop has it: its own entries win. Where they cannot be read the published one
  /// stands alone, and knowledgeProblem() says what is wrong.
  std::shared_ptr<const learning::KnowledgeBase> knowledge() const;
  std::optional<Problem> knowledgeProblem() const;
  /// The plans of the machines that wait, worked out in the background.
  Planning& planning();
  Date today() const;
  db::Instant now() const;
  Currency currency() const;

  /// Performs what a function of core made. A problem (from the function, a rule or the store) is returned,
  /// and nothing has changed. On success `changed` is sent and the What-now line says what was done.
  std::optional<Problem> perform(Result<Change> change);
  std::optional<Problem> undo();
  std::optional<Problem> redo();
  /// The years that undo() would open again: those that the last action closed.
  std::vector<int> yearsUndoOpens() const;
  std::vector<db::HistoryEntry> history() const;
  std::optional<Problem> setSettings(const Settings& settings);

  // The bench clock
  std::optional<db::Clock> clock() const;
  std::optional<Problem> startClock(MachineId machine);
  /// Stops it and logs the minutes (at least 1) as `work` on its machine: one action, dated the day it was
  /// started. `instead` are the minutes to log where the clock ran on by mistake.
  std::optional<Problem> stopClock(Work work, std::optional<Minutes> instead = std::nullopt);
  Minutes clockMinutes() const;  ///< run so far, at least 1; 0 while none runs
  void discardClock();
  /// Its minutes so far are logged otherwise: it counts on from now, on the same machine.
  void restartClock();

  // Drafts and preferences: not entries of the history
  void saveDraft(const QString& form, const QString& text);
  void dropDraft(const QString& form);
  std::optional<QString> draft(const QString& form) const;
  void setPreference(const QString& key, const QString& value);
  QString preference(const QString& key, const QString& otherwise = {}) const;

  // Long work on the store, from a thread of its own (long_work.h)
  /// From now to resume() whatever would change the shop is refused with this sentence.
  void hold(const QString& sentence);
  /// Ends the hold, and shows what the long work did in the meantime, if it did anything.
  void resume(const std::optional<db::Done>& done);
  /// Has the task done where the store lives and waits for it. May be called by the thread of long work.
  void withStore(const std::function<void(db::Store&)>& task);

  std::filesystem::path folder() const;
  std::vector<db::Hit> search(const QString& text) const;
  Result<std::string> keepPhoto(const QByteArray& content);
  QByteArray photo(const std::string& sha256) const;

  /// The machines in hand: opened or clocked lately, newest first, at most 6. Kept over a restart.
  std::vector<MachineId> inHand() const;
  void takeInHand(MachineId machine);

  // How this shop shows its values
  QString money(Money amount) const;                        ///< "$1,234.50", true minus sign
  QString money(const std::optional<Money>& amount) const;  ///< "—" when absent
  QString tagOf(MachineId machine) const;                   ///< "14", without #
  QString nameOf(
      MachineId machine) const;  ///< "Tarnwick 21 self-propelled": make, model, kind, as far as known

 signals:
  /// After every action, undo and redo, and after settings changed (then empty).
  void changed(const std::vector<secondpull::AnyId>& ids);
  void clockChanged();
  void inHandChanged();
  void said(const QString& sentence);  ///< for the What-now line: what was just done

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace secondpull::app
