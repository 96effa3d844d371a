#include "app/frame/clock_keeper.h"

#include "app/frame/ask_bar.h"
#include "app/frame/session.h"
#include "app/parts/edits.h"

namespace secondpull::app {
namespace {

constexpr int kTickMs = 5000;
constexpr Minutes kForgottenAfter{120};
constexpr int kCutFieldWidth = 110;

bool onTheBench(Work work) {
  return work != Work::pickup && work != Work::list && work != Work::sell && work != Work::comeback;
}

}  // namespace

ClockKeeper::ClockKeeper(Session& session, AskBar& ask, QObject* parent)
    : QObject(parent), session_{session}, ask_{ask} {
  tick_.setInterval(kTickMs);
  connect(&tick_, &QTimer::timeout, this, [this] {
    if (const QString now = time(); now != shown_) {
      shown_ = now;
      emit ticked();
    }
  });
  const auto follow = [this] {
    if (session_.clock())
      tick_.start();
    else
      tick_.stop();
  };
  connect(&session, &Session::clockChanged, this, follow);
  follow();
}

QString ClockKeeper::time() const {
  if (!session_.clock()) return {};
  const auto run =
      std::chrono::floor<std::chrono::minutes>(session_.now() - session_.clock()->started).count();
  return QString{"%1:%2"}
      .arg(static_cast<qlonglong>(run / 60))
      .arg(static_cast<qlonglong>(run % 60), 2, 10, QChar{'0'});
}

void ClockKeeper::toggle() {
  if (session_.clock()) return stop(usualWork());
  const std::vector<MachineId> in_hand = session_.inHand();
  if (in_hand.empty()) return emit wentWrong(tr("The clock needs a machine: open one first."));
  if (const auto wrong = session_.startClock(in_hand.front()))
    emit wentWrong(QString::fromStdString(wrong->sentence));
}

void ClockKeeper::askToStop() {
  if (!session_.clock()) return;
  const Work usual = usualWork();
  std::vector<AskBar::Answer> answers;
  const auto offer = [&](Work work) {
    const std::string_view name = word(work);
    answers.push_back(
        {QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size())), [this, work] { stop(work); }});
  };
  offer(usual);
  for (const Work work :
       {Work::diagnose, Work::clean, Work::repair, Work::service, Work::test_run, Work::other})
    if (work != usual) offer(work);
  answers.push_back({tr("throw it away"), [this] { session_.discardClock(); }});
  ask_.ask(tr("%1 on #%2: log it as")
               .arg(QString::fromStdString(shown(session_.clockMinutes())),
                    session_.tagOf(session_.clock()->machine)),
           answers);
}

void ClockKeeper::askIfForgotten() {
  if (!session_.clock() || session_.clockMinutes() <= kForgottenAfter) return;
  const QString minutes = QString::fromStdString(shown(session_.clockMinutes()));
  auto* cut = new MinutesEdit{"minutes"};
  cut->setGuess(QString::fromStdString(shown(kForgottenAfter)));
  cut->setFixedWidth(
      std::max(kCutFieldWidth, cut->fontMetrics().horizontalAdvance("00 h 00 min  guess") + 32));
  cut->setAccessibleName(tr("Minutes to keep"));
  const Work work = usualWork();
  const auto log = [this, work](std::optional<Minutes> instead) {
    if (const auto wrong = session_.stopClock(work, instead))
      emit wentWrong(QString::fromStdString(wrong->sentence));
  };
  ask_.ask(tr("The clock on #%1 has run for %2. Was that all work?")
               .arg(session_.tagOf(session_.clock()->machine), minutes),
           {{tr("Keep %1").arg(minutes), [log] { log(std::nullopt); }},
            {tr("Cut to what stands here"),
             [this, log, cut] {
               if (cut->value())
                 log(cut->value());
               else
                 emit wentWrong(tr("The minutes to keep are still to be filled in."));
             }},
            {tr("Discard"), [this] { session_.discardClock(); }}},
           cut);
}

void ClockKeeper::stop(Work work) {
  if (const auto wrong = session_.stopClock(work)) emit wentWrong(QString::fromStdString(wrong->sentence));
}

Work ClockKeeper::usualWork() const {
  const std::shared_ptr<const Books> books = session_.books();
  const ByMachine::Lines& lines = books->by_machine().of(session_.clock()->machine);
  for (auto at = lines.labour.rbegin(); at != lines.labour.rend(); ++at)
    if (onTheBench((*at)->work)) return (*at)->work;
  return lines.findings.empty() ? Work::diagnose : Work::repair;
}

}  // namespace secondpull::app
