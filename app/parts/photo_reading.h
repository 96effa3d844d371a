#pragma once

#include <QByteArray>
#include <QString>

#include "core/result.h"

namespace secondpull::app {

constexpr int kPhotoSide = 2000;  ///< the longer side of a kept picture, in pixels, at most

/// A picture made ready for the photo store: scaled down to kPhotoSide, turned upright by its EXIF
/// orientation, written anew as JPEG without anything that says where or when it was taken. What cannot be
/// read as a picture comes back as it was.
QByteArray readyPhoto(const QByteArray& original);

struct PhotoFile {
  QByteArray content;  ///< ready for the photo store
  QString name;        ///< the file's name
};
/// Reads a file and makes it ready. A problem if the file cannot be read, is empty, or is larger than any
/// photo (100 MB).
Result<PhotoFile> readPhotoFile(const QString& path);

}  // namespace secondpull::app
