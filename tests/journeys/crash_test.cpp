#include <QProcess>

#include "tests/journeys/journey.h"

namespace secondpull::app::test {
namespace {

class Crash : public Journey {};

TEST_F(Crash, OffersBackWhatWasHalfTypedWhenTheProgramWasKilled) {
  window.reset();
  shop.session.reset();

  QProcess program;
  program.start(HALF_TYPED_PROGRAM, {QString::fromStdString(shop.path().string())});
  ASSERT_TRUE(program.waitForReadyRead(30'000)) << program.readAllStandardError().toStdString();
  ASSERT_EQ(program.readAllStandardOutput().trimmed(), "typed");
  program.kill();  // SIGKILL: nothing of the program gets to tidy up
  ASSERT_TRUE(program.waitForFinished(10'000));

  shop.reopen();
  open();
  EXPECT_TRUE(shop.session->shop()->empty()) << "half a machine was stored";
  key(Qt::Key_N, Qt::ControlModifier);
  ASSERT_TRUE(isShown("draftGoOn")) << "the draft is not offered";
  click("draftGoOn");
  EXPECT_EQ(find<QLineEdit>("whatEdit")->text(), "Tarnwick Stride");
  EXPECT_EQ(find<QLineEdit>("symptomEdit")->text(), "surges when wa");

  typeInto("symptomEdit", "surges when warm");
  enterIn("symptomEdit");
  ASSERT_EQ(shop.session->shop()->all<Machine>().size(), 1u);
  EXPECT_EQ(shop.session->shop()->all<Machine>().begin()->symptom, "surges when warm");
  EXPECT_FALSE(shop.session->draft("yard.log-machine")) << "the draft outlived the machine";
}

}  // namespace
}  // namespace secondpull::app::test
