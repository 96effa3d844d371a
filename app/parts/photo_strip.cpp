#include "app/parts/photo_strip.h"

#include <QBuffer>
#include <QClipboard>
#include <QDragEnterEvent>
#include <QFileDialog>
#include <QGuiApplication>
#include <QImageReader>
#include <QKeyEvent>
#include <QLabel>
#include <QMimeData>
#include <QPainter>
#include <QPixmapCache>
#include <QPointer>
#include <QStandardPaths>
#include <QUrl>

#include "app/frame/session.h"
#include "app/parts/look.h"
#include "app/parts/photo_reading.h"
#include "core/shop/bench.h"

namespace secondpull::app {
namespace {

constexpr int kThumb = 9 * kGrid;  // the side of a thumbnail

/// The picture to show for a stored one; a plain card with the file's name where it is no picture that Qt
/// reads.
QPixmap thumbnail(const Session& session, const Photo& photo, qreal ratio) {
  const QString key = QStringLiteral("photo:%1:%2").arg(QString::fromStdString(photo.sha256)).arg(ratio);
  QPixmap pixmap;
  if (QPixmapCache::find(key, &pixmap)) return pixmap;
  const QSize side = QSize{kThumb, kThumb} * ratio;
  QImage image = QImage::fromData(session.photo(photo.sha256));
  if (image.isNull()) {
    image = QImage{side, QImage::Format_RGB32};
    image.fill(look().card);
    QPainter painter{&image};
    painter.setPen(look().faded);
    painter.drawText(image.rect(), Qt::AlignCenter | Qt::TextWrapAnywhere,
                     QString::fromStdString(photo.name));
  } else {
    image = image.scaled(side, Qt::KeepAspectRatioByExpanding, Qt::SmoothTransformation);
    image = image.copy(
        QRect{QPoint{(image.width() - side.width()) / 2, (image.height() - side.height()) / 2}, side});
  }
  pixmap = QPixmap::fromImage(std::move(image));
  pixmap.setDevicePixelRatio(ratio);
  QPixmapCache::insert(key, pixmap);
  return pixmap;
}

QStringList filesIn(const QMimeData* data) {
  QStringList paths;
  for (const QUrl& url : data->urls())
    if (url.isLocalFile()) paths.push_back(url.toLocalFile());
  return paths;
}

/// One picture over the whole window; any key or a click closes it.
class WholePicture : public QLabel {
 public:
  WholePicture(const QPixmap& picture, const QString& name, QWidget* window) : QLabel(window) {
    setObjectName(QStringLiteral("wholePicture"));
    setAccessibleName(tr("Picture %1; any key closes it").arg(name));
    setAlignment(Qt::AlignCenter);
    setAutoFillBackground(true);
    setFocusPolicy(Qt::StrongFocus);
    setGeometry(window->rect());
    const QSize room = size() - QSize{2 * kGrid, 2 * kGrid};
    const QSize fits = picture.size().scaled(room, Qt::KeepAspectRatio).boundedTo(picture.size());
    setPixmap(picture.scaled(fits, Qt::KeepAspectRatio, Qt::SmoothTransformation));
    before_ = window->focusWidget();
    show();
    raise();
    setFocus();
  }

 protected:
  void keyPressEvent(QKeyEvent*) override { close(); }
  void mousePressEvent(QMouseEvent*) override { close(); }
  void focusOutEvent(QFocusEvent*) override { deleteLater(); }
  void closeEvent(QCloseEvent*) override {
    if (before_) before_->setFocus();
    deleteLater();
  }

 private:
  QPointer<QWidget> before_;
};

}  // namespace

PhotoStrip::PhotoStrip(Session& session, QWidget* parent) : QListWidget(parent), session_{session} {
  setObjectName(QStringLiteral("photoStrip"));
  setAccessibleName(tr("Photos"));
  setAccessibleDescription(
      tr("Drop pictures here, or paste one. Enter shows one large, Delete takes it away."));
  setViewMode(QListView::IconMode);
  setFlow(QListView::LeftToRight);
  setMovement(QListView::Static);
  setWrapping(true);
  setResizeMode(QListView::Adjust);
  setIconSize({kThumb, kThumb});
  setGridSize({kThumb + kGrid, kThumb + kGrid});
  setSelectionMode(QAbstractItemView::SingleSelection);
  setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  setFrameShape(QFrame::NoFrame);
  setAcceptDrops(true);
  setDragDropMode(QAbstractItemView::DropOnly);
  viewport()->setAcceptDrops(true);  // pictures that stay where they are would not take drops otherwise
  connect(this, &QListWidget::itemActivated, this, &PhotoStrip::openCurrent);
}

void PhotoStrip::setOwner(const Photo& owner) {
  owner_ = owner;
  reload();
}

void PhotoStrip::reload() {
  clear();
  shown_.clear();
  const auto shop = session_.shop();
  for (const Photo& photo : shop->all<Photo>()) {
    const bool ours =
        photo.machine == owner_.machine && photo.order == owner_.order && photo.expense == owner_.expense;
    if (!ours) continue;
    const QString name = QString::fromStdString(photo.name);
    auto* item = new QListWidgetItem{QIcon{thumbnail(session_, photo, devicePixelRatioF())}, {}, this};
    item->setToolTip(photo.note.empty() ? name
                                        : name + QStringLiteral("\n") + QString::fromStdString(photo.note));
    item->setData(Qt::AccessibleTextRole, tr("Photo %1").arg(name));
    shown_.push_back(photo.id);
  }
  updateGeometry();
  viewport()->update();
}

QSize PhotoStrip::sizeHint() const {
  return {4 * (kThumb + kGrid), count() > 3 ? 2 * (kThumb + kGrid) + kGrid / 2 : kThumb + 2 * kGrid};
}

QSize PhotoStrip::minimumSizeHint() const {
  return {kThumb + 2 * kGrid, kThumb + 2 * kGrid};
}

const Photo* PhotoStrip::photoAt(int row) const {
  if (row < 0 || row >= static_cast<int>(shown_.size())) return nullptr;
  return session_.shop()->find(shown_[static_cast<std::size_t>(row)]);
}

void PhotoStrip::addFiles(const QStringList& paths) {
  for (const QString& path : paths) {
    const Result<PhotoFile> file = readPhotoFile(path);
    if (file)
      add(file->content, file->name);
    else
      emit wantsSaid(QString::fromStdString(file.error().sentence), true);
  }
}

void PhotoStrip::take(const QMimeData* mime, const QString& name) {
  const QStringList paths = filesIn(mime);
  if (!paths.isEmpty()) {
    addFiles(paths);
    return;
  }
  QByteArray content;
  QBuffer buffer{&content};
  buffer.open(QIODevice::WriteOnly);
  if (qvariant_cast<QImage>(mime->imageData()).save(&buffer, "PNG")) add(readyPhoto(content), name);
}

void PhotoStrip::add(const QByteArray& content, const QString& name) {
  const Result<std::string> kept = session_.keepPhoto(content);
  if (!kept) {
    emit wantsSaid(QString::fromStdString(kept.error().sentence), true);
    return;
  }
  Photo photo = owner_;
  photo.sha256 = *kept;
  photo.name = name.toStdString();
  if (const auto problem = session_.perform(add_photo(*session_.shop(), photo)))
    emit wantsSaid(QString::fromStdString(problem->sentence), true);
}

void PhotoStrip::chooseFiles() {
  addFiles(QFileDialog::getOpenFileNames(
      this, tr("Pictures to add"), QStandardPaths::writableLocation(QStandardPaths::PicturesLocation),
      tr("Pictures (*.jpg *.jpeg *.png *.webp *.bmp *.gif *.heic *.pdf);;All files (*)")));
}

void PhotoStrip::removeCurrent() {
  const Photo* photo = photoAt(currentRow());
  if (photo == nullptr) return;
  if (const auto problem = session_.perform(remove_line(*session_.shop(), AnyId{photo->id})))
    emit wantsSaid(QString::fromStdString(problem->sentence), true);
}

void PhotoStrip::openCurrent() {
  const Photo* photo = photoAt(currentRow());
  if (photo == nullptr) return;
  const QPixmap picture = QPixmap::fromImage(QImage::fromData(session_.photo(photo->sha256)));
  if (picture.isNull()) {
    emit wantsSaid(tr("%1 is kept, but it is no picture that can be shown here.")
                       .arg(QString::fromStdString(photo->name)),
                   true);
    return;
  }
  new WholePicture{picture, QString::fromStdString(photo->name), window()};
}

QStringList PhotoStrip::mimeTypes() const {
  return {QStringLiteral("text/uri-list")};
}

void PhotoStrip::dragEnterEvent(QDragEnterEvent* event) {
  if (!filesIn(event->mimeData()).isEmpty() || event->mimeData()->hasImage()) event->acceptProposedAction();
}

void PhotoStrip::dragMoveEvent(QDragMoveEvent* event) {
  event->acceptProposedAction();
}

void PhotoStrip::dropEvent(QDropEvent* event) {
  event->setDropAction(Qt::CopyAction);
  event->accept();
  take(event->mimeData(), tr("dropped picture.jpg"));
}

void PhotoStrip::keyPressEvent(QKeyEvent* event) {
  if (event->key() == Qt::Key_Delete) {
    removeCurrent();
  } else if (event->matches(QKeySequence::Paste)) {
    take(QGuiApplication::clipboard()->mimeData(), tr("pasted picture.jpg"));
  } else if (event->key() == Qt::Key_Return || event->key() == Qt::Key_Enter) {
    openCurrent();
  } else {
    QListWidget::keyPressEvent(event);
  }
}

void PhotoStrip::paintEvent(QPaintEvent* event) {
  QListWidget::paintEvent(event);
  if (count() > 0) return;
  QPainter painter{viewport()};
  painter.setPen(look().faded);
  painter.drawText(viewport()->rect(), Qt::AlignCenter | Qt::TextWordWrap, tr("Drop photos here"));
}

}  // namespace secondpull::app
