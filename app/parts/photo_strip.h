#pragma once

#include <vector>

#include <QListWidget>

#include "core/shop/records.h"

namespace secondpull::app {

class Session;

/// The pictures of one machine, order or expense as a row of thumbnails. Files dropped on it, pasted into it
/// (Ctrl+V) or chosen (addFiles) are taken into the photo store and added, one action each. Enter opens a
/// picture in the window's size (any key closes it again), Delete takes it away.
class PhotoStrip : public QListWidget {
  Q_OBJECT
 public:
  explicit PhotoStrip(Session& session, QWidget* parent = nullptr);
  /// Shows the photos that have the same machine, order and expense as `owner`; new ones get them too.
  void setOwner(const Photo& owner);
  void reload();  ///< after records changed
  /// Takes in these files; what cannot be taken in is said.
  void addFiles(const QStringList& paths);
  void chooseFiles();  ///< asks for files

  QSize sizeHint() const override;
  QSize minimumSizeHint() const override;

 signals:
  void wantsSaid(const QString& sentence, bool problem);

 protected:
  QStringList mimeTypes() const override;
  void dragEnterEvent(QDragEnterEvent* event) override;
  void dragMoveEvent(QDragMoveEvent* event) override;
  void dropEvent(QDropEvent* event) override;
  void keyPressEvent(QKeyEvent* event) override;
  void paintEvent(QPaintEvent* event) override;

 private:
  const Photo* photoAt(int row) const;
  void take(const QMimeData* mime, const QString& name);  ///< files, or a picture without a file
  void add(const QByteArray& content, const QString& name);
  void removeCurrent();
  void openCurrent();

  Session& session_;
  Photo owner_;
  std::vector<PhotoId> shown_;
};

}  // namespace secondpull::app
