#include "app/parts/form.h"

#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalSpy>
#include <QTest>

#include "app/parts/choices.h"
#include "app/parts/edits.h"
#include "tests/app/shop_for_test.h"

namespace secondpull::app::test {
namespace {

constexpr int kDraftWait = 1500;  // a draft is kept one second after the last key

struct FormForTest {
  explicit FormForTest(Session& session) : form(session, "test.form", "Log a machine") {
    name = new QLineEdit;
    price = new MoneyEdit{"price", session.currency()};
    source = new WordRow{"source", {"curb", "dump", "gift"}};
    form.addField("name", "Name", name);
    form.addField("price", "Price", price);
    form.addField("source", "Source", source, 2);
    form.resize(500, 300);
  }
  QPushButton* button(const char* which) { return form.findChild<QPushButton*>(which); }
  Form form;
  QLineEdit* name;
  MoneyEdit* price;
  WordRow* source;
};

TEST(Form, SavesWithEnterAndKeepsNoDraft) {
  ShopForTest shop;
  FormForTest it(*shop.session);
  QString saved_name;
  it.form.onSave([&]() -> std::optional<Problem> {
    saved_name = it.name->text();
    return std::nullopt;
  });
  QSignalSpy saved(&it.form, &Form::saved);
  it.form.open();
  QTest::keyClicks(it.name, "Tarnwick");
  QTest::keyClick(it.name, Qt::Key_Return);
  EXPECT_EQ(saved.count(), 1);
  EXPECT_EQ(saved_name, "Tarnwick");
  EXPECT_FALSE(shop.session->draft("test.form"));
}

TEST(Form, ShowsAFieldsOwnProblemUnderItAndDoesNotSave) {
  ShopForTest shop;
  FormForTest it(*shop.session);
  bool asked = false;
  it.form.onSave([&]() -> std::optional<Problem> {
    asked = true;
    return std::nullopt;
  });
  it.form.open();
  it.price->setText("12.345");
  QTest::keyClick(it.name, Qt::Key_Return);
  EXPECT_FALSE(asked);
  auto* under = it.form.findChild<QLabel*>("problem.price");
  EXPECT_TRUE(under->isVisibleTo(&it.form));
  EXPECT_TRUE(under->text().contains("12.345"));
  EXPECT_EQ(it.price->text(), "12.345");
}

TEST(Form, ShowsAProblemUnderTheFieldThatItNames) {
  ShopForTest shop;
  FormForTest it(*shop.session);
  it.form.onSave([]() { return std::optional<Problem>{Problem{"That name is taken.", "name", "x"}}; });
  it.form.open();
  QTest::keyClick(it.name, Qt::Key_Return);
  EXPECT_EQ(it.form.findChild<QLabel*>("problem.name")->text(), "That name is taken.");
  it.form.onSave([]() { return std::optional<Problem>{Problem{"The disk is full.", "", ""}}; });
  QTest::keyClick(it.name, Qt::Key_Return);
  EXPECT_EQ(it.form.findChild<QLabel*>("problem")->text(), "The disk is full.");
  EXPECT_FALSE(it.form.findChild<QLabel*>("problem.name")->isVisibleTo(&it.form));
}

TEST(Form, KeepsWhatWasTypedASecondAfterTheLastKeyAndOffersItBackAfterACrash) {
  ShopForTest shop;
  {
    FormForTest it(*shop.session);
    it.form.open();
    QTest::keyClicks(it.name, "Oldbarrow");
    it.price->setGuess("$20.00");
    it.source->setCurrent(2);
    EXPECT_TRUE(QTest::qWaitFor([&] { return shop.session->draft("test.form").has_value(); }, kDraftWait));
  }
  shop.reopen();
  FormForTest it(*shop.session);
  it.form.open();
  ASSERT_TRUE(it.button("draftGoOn")->isVisibleTo(&it.form));
  EXPECT_TRUE(it.name->text().isEmpty());
  it.button("draftGoOn")->click();
  EXPECT_EQ(it.name->text(), "Oldbarrow");
  EXPECT_EQ(it.price->text(), "$20.00");
  EXPECT_TRUE(it.price->isGuess());
  EXPECT_EQ(it.source->current(), 2);
  EXPECT_FALSE(it.button("draftGoOn")->isVisibleTo(&it.form));
}

TEST(Form, ForgetsTheDraftThatIsNotWanted) {
  ShopForTest shop;
  shop.session->saveDraft("test.form", R"({"name":"Oldbarrow"})");
  FormForTest it(*shop.session);
  it.form.open();
  it.button("draftAfresh")->click();
  EXPECT_TRUE(it.name->text().isEmpty());
  EXPECT_FALSE(shop.session->draft("test.form"));
}

TEST(Form, KeepsTheDraftWhenLeftWithEsc) {
  ShopForTest shop;
  FormForTest it(*shop.session);
  QSignalSpy left(&it.form, &Form::left);
  it.form.open();
  QTest::keyClicks(it.name, "Oldbarrow");
  QTest::keyClick(it.name, Qt::Key_Escape);
  EXPECT_EQ(left.count(), 1);
  EXPECT_FALSE(it.form.isVisible());
  EXPECT_TRUE(shop.session->draft("test.form"));
  it.form.open();  // it still stands there: nothing to offer
  EXPECT_FALSE(it.button("draftGoOn")->isVisibleTo(&it.form));
  EXPECT_EQ(it.name->text(), "Oldbarrow");
}

TEST(WhyFigure, SaysHowItCameAboutWhenAsked) {
  WhyFigure figure("Profit");
  figure.setFigure("$60.00", "$160.00 less $100.00");
  auto* answer = figure.findChild<QLabel*>("why");
  EXPECT_FALSE(answer->isVisibleTo(&figure));
  QTest::keyClick(figure.findChild<QPushButton*>(), Qt::Key_Space);
  EXPECT_TRUE(answer->isVisibleTo(&figure));
}

}  // namespace
}  // namespace secondpull::app::test
