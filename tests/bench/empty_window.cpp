// The least a Qt window can be: shows itself, is painted once, ends. The measure for the program's own start.

#include <QApplication>
#include <QPaintEvent>
#include <QTimer>
#include <QWidget>

namespace {

class EmptyWindow : public QWidget {
 protected:
  void paintEvent(QPaintEvent* event) override {
    QWidget::paintEvent(event);
    QTimer::singleShot(0, qApp, &QApplication::quit);
  }
};

}  // namespace

int main(int argc, char** argv) {
  const QApplication app(argc, argv);
  EmptyWindow window;
  window.resize(1280, 800);
  window.show();
  return QApplication::exec();
}
