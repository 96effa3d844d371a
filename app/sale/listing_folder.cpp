#include "app/sale/listing_folder.h"

#include <QCoreApplication>
#include <QDir>
#include <QFile>
#include <QTemporaryDir>

namespace secondpull::app {
namespace {

constexpr qsizetype kLongestName = 60;
constexpr int kMostFolders = 1000;  // of one name

QString tr(const char* text) {
  return QCoreApplication::translate("ListingFolder", text);
}

tl::unexpected<Problem> cannot(const QString& what) {
  return problem(
      tr("%1 cannot be written: is the folder there, and may it be written to?").arg(what).toStdString(),
      "folder", what.toStdString());
}

/// Closed without an error, and on the disk.
bool writeAll(const QString& path, const QByteArray& content) {
  QFile file{path};
  return file.open(QIODevice::WriteOnly) && file.write(content) == content.size() && file.flush();
}

}  // namespace

QString asFileName(const QString& text) {
  QString name;
  for (const QChar c : text) {
    if (c.isLetterOrNumber())
      name += c;
    else if (!name.isEmpty() && !name.endsWith(QLatin1Char('-')))
      name += QLatin1Char('-');
  }
  name.truncate(kLongestName);
  while (name.endsWith(QLatin1Char('-')))
    name.chop(1);
  return name.isEmpty() ? QStringLiteral("listing") : name;
}

Result<QString> writeListingFolder(const QString& parent, const QString& name,
                                   const std::vector<FolderFile>& files) {
  const QDir place{parent};
  if (!place.exists()) return cannot(parent);
  // Written beside where it is to be, and moved there when all is in it; taken away again if not.
  QTemporaryDir unfinished{place.filePath(QStringLiteral(".listing-XXXXXX"))};
  if (!unfinished.isValid()) return cannot(parent);
  for (const FolderFile& file : files)
    if (!writeAll(unfinished.filePath(file.name), file.content)) return cannot(place.filePath(file.name));
  for (int number = 1; number < kMostFolders; ++number) {
    const QString path = place.filePath(number == 1 ? name : QStringLiteral("%1-%2").arg(name).arg(number));
    if (QFileInfo::exists(path)) continue;
    if (!QDir{}.rename(unfinished.path(), path)) return cannot(path);
    unfinished.setAutoRemove(false);
    // What is temporary is readable by its owner alone; a listing is to be shared.
    QFile::setPermissions(path, QFile::permissions(parent));
    return path;
  }
  return cannot(place.filePath(name));
}

}  // namespace secondpull::app
