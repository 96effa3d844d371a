#include "app/parts/photo_reading.h"

#include <algorithm>

#include <QBuffer>
#include <QColorSpace>
#include <QFile>
#include <QFileInfo>
#include <QImageReader>
#include <QImageWriter>
#include <QPainter>

namespace secondpull::app {
namespace {

constexpr int kJpegQuality = 85;
constexpr qint64 kLargestFile = 100'000'000;  // bytes
constexpr int kReadingLimit = 1024;           // MB that one picture may take while it is decoded

/// The picture's points alone, on white: a fresh image carries none of the texts, profiles or places that
/// came with the one it was drawn from.
QImage pointsOf(QImage image) {
  if (image.colorSpace().isValid()) image.convertToColorSpace(QColorSpace{QColorSpace::SRgb});
  QImage bare{image.size(), QImage::Format_RGB32};
  bare.fill(Qt::white);
  QPainter painter{&bare};
  painter.drawImage(QRect{QPoint{0, 0}, image.size()}, image);
  return bare;
}

}  // namespace

QByteArray readyPhoto(const QByteArray& original) {
  QBuffer source;
  source.setData(original);
  source.open(QIODevice::ReadOnly);
  QImageReader reader{&source};
  reader.setAutoTransform(true);
  reader.setAllocationLimit(kReadingLimit);
  // Letting the decoder scale keeps a large picture from filling memory; the sides of a picture on its side
  // are exchanged only afterwards, which changes nothing about the longer one.
  const QSize whole = reader.size();
  if (std::max(whole.width(), whole.height()) > kPhotoSide)
    reader.setScaledSize(whole.scaled(kPhotoSide, kPhotoSide, Qt::KeepAspectRatio).expandedTo({1, 1}));
  QImage image = reader.read();
  if (image.isNull()) return original;
  if (std::max(image.width(), image.height()) > kPhotoSide)
    image = image.scaled(kPhotoSide, kPhotoSide, Qt::KeepAspectRatio, Qt::SmoothTransformation);

  QBuffer kept;
  kept.open(QIODevice::WriteOnly);
  QImageWriter writer{&kept, "jpeg"};
  writer.setQuality(kJpegQuality);
  return writer.write(pointsOf(std::move(image))) ? kept.data() : original;
}

Result<PhotoFile> readPhotoFile(const QString& path) {
  const QFileInfo info{path};
  const std::string name = info.fileName().toStdString();
  QFile file{path};
  if (!file.open(QIODevice::ReadOnly))
    return problem("The picture " + name + " cannot be opened: " + file.errorString().toStdString() + ".",
                   "photo", path.toStdString());
  if (file.size() > kLargestFile)
    return problem("The picture " + name + " is larger than 100 MB.", "photo", path.toStdString());
  const QByteArray original = file.readAll();
  if (original.isEmpty()) return problem("The picture " + name + " is empty.", "photo", path.toStdString());
  return PhotoFile{readyPhoto(original), info.fileName()};
}

}  // namespace secondpull::app
