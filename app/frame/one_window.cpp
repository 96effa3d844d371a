#include "app/frame/one_window.h"

#include <cstring>
#include <sys/socket.h>
#include <sys/un.h>
#include <unistd.h>

#include <QCryptographicHash>
#include <QSocketNotifier>
#include <QStandardPaths>

namespace secondpull::app {
namespace {

constexpr int kWaiting = 4;  // starts that may be waiting to be answered

std::string socketPath(const std::filesystem::path& shop) {
  std::error_code ignored;  // a folder that is not there has no window
  const std::string folder = std::filesystem::weakly_canonical(shop, ignored).string();
  const QByteArray name =
      QCryptographicHash::hash(QByteArray::fromStdString(folder), QCryptographicHash::Sha256);
  const QString place = QStandardPaths::writableLocation(QStandardPaths::RuntimeLocation);
  return (place + "/secondpull-" + QString::fromLatin1(name.toHex().left(16))).toStdString();
}

/// An address, or nothing where the path is too long for one.
std::optional<sockaddr_un> address(const std::string& path) {
  sockaddr_un address{};
  address.sun_family = AF_UNIX;
  if (path.size() >= sizeof address.sun_path) return std::nullopt;
  std::memcpy(address.sun_path, path.c_str(), path.size() + 1);
  return address;
}

int openSocket() {
  return ::socket(AF_UNIX, SOCK_STREAM | SOCK_CLOEXEC | SOCK_NONBLOCK, 0);
}

}  // namespace

bool OneWindow::raiseOther(const std::filesystem::path& shop) {
  const auto where = address(socketPath(shop));
  const int out = openSocket();
  if (!where || out < 0) return false;
  const bool answered = ::connect(out, reinterpret_cast<const sockaddr*>(&*where), sizeof *where) == 0;
  ::close(out);
  return answered;
}

OneWindow::OneWindow(const std::filesystem::path& shop, QObject* parent)
    : QObject(parent), path_{socketPath(shop)} {
  const auto where = address(path_);
  listening_ = openSocket();
  if (!where || listening_ < 0) return;  // without it a second start says that the shop is open elsewhere
  ::unlink(path_.c_str());
  if (::bind(listening_, reinterpret_cast<const sockaddr*>(&*where), sizeof *where) != 0 ||
      ::listen(listening_, kWaiting) != 0)
    return;
  auto* notifier = new QSocketNotifier{listening_, QSocketNotifier::Read, this};
  connect(notifier, &QSocketNotifier::activated, this, [this] {
    const int caller = ::accept(listening_, nullptr, nullptr);
    if (caller < 0) return;
    ::close(caller);
    emit wantsRaise();
  });
}

OneWindow::~OneWindow() {
  if (listening_ < 0) return;
  ::close(listening_);
  ::unlink(path_.c_str());
}

}  // namespace secondpull::app
