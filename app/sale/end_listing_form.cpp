#include "app/sale/end_listing_form.h"

#include <QLineEdit>

#include "app/frame/session.h"
#include "app/parts/edits.h"
#include "app/sale/form_words.h"
#include "core/shop/off_sale.h"

namespace secondpull::app {
namespace {

QString titleOf(const Session& session, ListingId id) {
  const auto shop = session.shop();
  const Listing* listing = shop->find(id);
  return listing == nullptr
             ? EndListingForm::tr("Off sale")
             : EndListingForm::tr("#%1 is taken in without a sale").arg(session.tagOf(listing->machine));
}

}  // namespace

EndListingForm::EndListingForm(Session& session, ListingId listing, QWidget* parent)
    : Form(session, QStringLiteral("end-listing-%1").arg(number(listing)), titleOf(session, listing), parent),
      session_{session},
      listing_{listing} {
  setObjectName(QStringLiteral("endListingForm"));
  setColumns(2);
  setSaveText(tr("Take it in"));
  reason_ = new QLineEdit;
  reason_->setObjectName(QStringLiteral("endReason"));
  reason_->setPlaceholderText(tr("nobody came, too dear, a fault..."));
  date_ = new DateEdit{QStringLiteral("ended"), session.today()};
  date_->setObjectName(QStringLiteral("endDate"));
  date_->setRequired(true);
  date_->setValue(session.today());
  addField(QStringLiteral("reason"), tr("Why, if you like"), reason_);
  addField(QStringLiteral("ended"), tr("Day"), date_);
  QStringList reasons{tr("nobody came"), tr("price too high"), tr("a fault showed"), tr("season is over"),
                      tr("kept for own use")};
  for (const std::string& given : reasons_given(*session.shop()))
    reasons << QString::fromStdString(given);
  suggest(*reason_, reasons);
  onSave([this] { return save(); });
}

std::optional<Problem> EndListingForm::save() {
  return session_.perform(take_off_sale(*session_.shop(), listing_, *date_->value(), textOf(*reason_)));
}

}  // namespace secondpull::app
