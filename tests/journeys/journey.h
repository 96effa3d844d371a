#pragma once

#include <chrono>
#include <memory>
#include <string>

#include <QApplication>
#include <QLineEdit>
#include <QPushButton>
#include <QTest>
#include <gtest/gtest.h>

#include "app/frame/main_window.h"
#include "app/frame/what_now.h"
#include "tests/app/shop_for_test.h"

namespace secondpull::app::test {

/// A person at the real window: every screen is the program's own, every step a key, a click or a typed text.
class Journey : public ::testing::Test {
 protected:
  Journey() { open(); }

  void open() {
    window = std::make_unique<MainWindow>(*shop.session);
    window->resize(1280, 800);
    window->show();
    window->activateWindow();
    EXPECT_TRUE(QTest::qWaitForWindowActive(window.get()));
  }
  void closeAndReopen() {
    window->close();
    window.reset();
    shop.reopen();
    open();
  }

  /// The shown widget of that object name.
  template <class Widget = QWidget>
  Widget* find(const char* name) {
    for (Widget* widget : window->findChildren<Widget*>(QString::fromLatin1(name)))
      if (widget->isVisible()) return widget;
    ADD_FAILURE() << "nothing is shown that is called " << name;
    throw std::runtime_error(std::string{"not shown: "} + name);
  }
  bool isShown(const char* name) {
    for (const QWidget* widget : window->findChildren<QWidget*>(QString::fromLatin1(name)))
      if (widget->isVisible()) return true;
    return false;
  }
  /// A key to whatever has the focus, as from a keyboard.
  void key(int key, Qt::KeyboardModifiers modifiers = {}) {
    QWidget* at = QApplication::focusWidget();
    QTest::keyClick(at != nullptr ? at : window.get(), static_cast<Qt::Key>(key), modifiers);
  }
  void type(const char* text) {
    QWidget* at = QApplication::focusWidget();
    ASSERT_NE(at, nullptr) << "nothing has the focus to type \"" << text << "\" into";
    QTest::keyClicks(at, QString::fromUtf8(text));
  }
  void typeInto(const char* name, const char* text) {
    auto* field = find<QLineEdit>(name);
    field->setFocus();
    field->selectAll();
    QTest::keyClicks(field, QString::fromUtf8(text));
  }
  void click(const char* name) { QTest::mouseClick(find(name), Qt::LeftButton); }
  void enterIn(const char* name, Qt::KeyboardModifiers modifiers = {}) {
    QTest::keyClick(find(name), Qt::Key_Return, modifiers);
  }
  void tick(std::chrono::minutes time) { shop.now += time; }
  QString said() { return window->findChild<WhatNow*>("whatNow")->said(); }

  MachineId newest() const {
    MachineId found{};
    for (const Machine& machine : shop.session->shop()->all<Machine>())
      found = std::max(found, machine.id);
    return found;
  }
  const MachineFigures& figures(MachineId machine) const { return *shop.session->books()->machine(machine); }
  Money dollars(std::int64_t cents) const { return Money::from_minor(cents); }

  ShopForTest shop;
  std::unique_ptr<MainWindow> window;
};

}  // namespace secondpull::app::test
