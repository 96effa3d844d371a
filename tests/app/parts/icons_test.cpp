#include <QDir>
#include <QFile>
#include <QImage>
#include <gtest/gtest.h>

#include "app/parts/look.h"

namespace secondpull::app::test {
namespace {

bool hasInk(const QImage& image, const QColor& ink) {
  for (int y = 0; y < image.height(); ++y)
    for (int x = 0; x < image.width(); ++x)
      if (const QColor at = image.pixelColor(x, y); at.alpha() > 250 && at.rgb() == ink.rgb()) return true;
  return false;
}

TEST(Icons, AreAllDrawnInOneWeightAndInTheInkAskedFor) {
  const QDir folder{":/icons"};
  ASSERT_GE(folder.entryList({"*.svg"}).size(), 24);
  for (const QString& file : folder.entryList({"*.svg"})) {
    QFile svg{folder.filePath(file)};
    ASSERT_TRUE(svg.open(QIODevice::ReadOnly));
    EXPECT_TRUE(svg.readAll().contains("stroke-width=\"1.75\"")) << file.toStdString();
    const QColor ink{"#123456"};
    const QIcon at = icon(file.chopped(4), ink);
    EXPECT_TRUE(hasInk(at.pixmap(96, 96).toImage(), ink)) << file.toStdString();
  }
}

TEST(Icons, FollowTheLookInForce) {
  const QIcon tag = icon("tag");
  EXPECT_TRUE(hasInk(tag.pixmap(96, 96).toImage(), look().ink));
}

}  // namespace
}  // namespace secondpull::app::test
