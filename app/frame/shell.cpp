#include "app/frame/shell.h"

#include <QDateTime>
#include <QStandardPaths>

#include "app/frame/first_run.h"
#include "app/frame/main_window.h"
#include "app/frame/one_window.h"
#include "app/frame/own_settings.h"

namespace secondpull::app {
namespace {

constexpr QSize kFirstRunSize{1040, 720};

}  // namespace

Shell::Shell(std::filesystem::path home, std::optional<Date> today, QObject* parent)
    : QObject(parent), home_{std::move(home)}, today_{today} {}

Shell::~Shell() = default;

std::filesystem::path Shell::defaultHome() {
  const QString data = QStandardPaths::writableLocation(QStandardPaths::GenericDataLocation);
  return std::filesystem::path{data.toStdString()} / "secondpull";
}

db::Instant Shell::now() const {
  QDateTime now = QDateTime::currentDateTime();
  if (today_)
    now.setDate(QDate{static_cast<int>(today_->year()),
                      static_cast<int>(static_cast<unsigned>(today_->month())),
                      static_cast<int>(static_cast<unsigned>(today_->day()))});
  return db::Instant{std::chrono::milliseconds{now.toMSecsSinceEpoch()}};
}

bool Shell::open(const std::filesystem::path& shop) {
  Result<db::Store> store = db::Store::open(shop, db::Access::write, now());
  if (store) {
    use(*std::move(store), false);
    return true;
  }
  if (OneWindow::raiseOther(shop)) return true;
  showFirstRun(QString::fromStdString(store.error().sentence));
  return false;
}

void Shell::showFirstRun(const QString& problem) {
  if (!first_run_) {
    first_run_ = std::make_unique<FirstRun>(home_, [this] { return now(); });
    first_run_->resize(kFirstRunSize);
    connect(first_run_.get(), &FirstRun::ready, this, [this](bool new_shop) {
      if (std::optional<db::Store> store = first_run_->takeStore()) use(*std::move(store), new_shop);
    });
    connect(first_run_.get(), &FirstRun::wantsShop, this,
            [this](const std::filesystem::path& shop) { open(shop); });
  }
  if (!problem.isEmpty()) first_run_->showProblem(problem);
  first_run_->show();
  first_run_->raise();
}

void Shell::lookAtDemo() {
  showFirstRun();
  first_run_->lookAtDemo();
}

bool Shell::hasWindow() const {
  return (window_ && window_->isVisible()) || (first_run_ && first_run_->isVisible());
}

void Shell::use(db::Store store, bool new_shop) {
  // The window goes before the session that it shows, and the session before another may be opened.
  window_.reset();
  one_window_.reset();
  session_ = std::make_unique<Session>(std::move(store), [this] { return now(); });
  OwnSettings::setLastShop(session_->folder());
  window_ = std::make_unique<MainWindow>(*session_);
  connect(window_.get(), &MainWindow::wantsOtherShop, this, [this] { showFirstRun(); });
  one_window_ = std::make_unique<OneWindow>(session_->folder(), nullptr);
  connect(one_window_.get(), &OneWindow::wantsRaise, window_.get(), [this] {
    window_->setWindowState((window_->windowState() & ~Qt::WindowMinimized) | Qt::WindowActive);
    window_->raise();
    window_->activateWindow();
  });
  window_->show();
  // Kept until the click that led here is over: it may still be on the first-run page's own code.
  if (first_run_) {
    first_run_->hide();
    first_run_.release()->deleteLater();
  }
  if (new_shop) window_->logWhatIsHere();
}

}  // namespace secondpull::app
