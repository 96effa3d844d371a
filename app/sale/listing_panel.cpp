#include "app/sale/listing_panel.h"

#include <utility>

#include <QApplication>
#include <QClipboard>
#include <QFileDialog>
#include <QLabel>
#include <QPlainTextEdit>
#include <QPushButton>
#include <QShortcut>
#include <QStandardPaths>
#include <QVBoxLayout>

#include "app/frame/session.h"
#include "app/parts/flow.h"
#include "app/parts/form.h"
#include "app/parts/grown.h"
#include "app/parts/look.h"
#include "app/parts/photo_strip.h"
#include "app/print/listing_paper.h"
#include "app/print/paper_desk.h"
#include "app/sale/listing_folder.h"
#include "core/paper/listing_text.h"
#include "core/shop/listing_text.h"

namespace secondpull::app {
namespace {

constexpr int kWordsHeight = 30 * kGrid;

/// How the machine is offered; what nobody listed yet says nothing of a price.
paper::ListingWords wordsOf(const Session& session, MachineId machine) {
  const auto books = session.books();
  const ByMachine::Lines& lines = books->by_machine().of(machine);
  return paper::listing_words(books->shop(), lines, *session.knowledge(), paper::terms_of(lines),
                              session.today());
}

Sheet sheetOf(const Session& session, MachineId machine) {
  const auto books = session.books();
  const ByMachine::Lines& lines = books->by_machine().of(machine);
  ListingPaper sheet{.words = wordsOf(session, machine),
                     .seller = QString::fromStdString(books->shop().settings.name),
                     .number = QLatin1Char('#') + session.tagOf(machine)};
  if (const auto asking = paper::terms_of(lines).asking)
    sheet.price = QString::fromStdString(shown_short(*asking, session.currency()));
  if (!lines.photos.empty()) sheet.photo = QImage::fromData(session.photo(lines.photos.front()->sha256));
  return listingSheet(sheet);
}

}  // namespace

ListingPanel::ListingPanel(Session& session, QWidget* parent) : QWidget(parent), session_{session} {
  auto* box = new QVBoxLayout{this};
  box->setContentsMargins(0, 0, 0, 0);
  box->setSpacing(kGrid);
  auto* title = new QLabel{tr("Listing")};
  setRank(title, "subheading");
  box->addWidget(title);
  whose_ = faded({});
  whose_->setObjectName(QStringLiteral("listingWhose"));
  whose_->setWordWrap(true);
  box->addWidget(whose_);
  words_ = new QLabel;
  words_->setObjectName(QStringLiteral("listingText"));
  words_->setAccessibleName(tr("The words of the listing"));
  words_->setWordWrap(true);
  words_->setTextFormat(Qt::PlainText);
  words_->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
  box->addWidget(words_);
  form_place_ = new QVBoxLayout;
  box->addLayout(form_place_);
  photos_ = new PhotoStrip{session};
  photos_->setObjectName(QStringLiteral("listingPhotos"));
  photos_->setAccessibleName(tr("Photos of this machine"));
  connect(photos_, &PhotoStrip::wantsSaid, this, &ListingPanel::wantsSaid);
  box->addWidget(photos_);

  auto* line = new QWidget;
  auto* flow = new Flow{line, kGrid};
  const auto button = [&](const char* name, const QString& text, const QString& what,
                          void (ListingPanel::*run)()) {
    auto* made = new QPushButton{text};
    made->setObjectName(QString::fromLatin1(name));
    made->setToolTip(what);
    connect(made, &QPushButton::clicked, this, run);
    flow->addWidget(made);
    return made;
  };
  edit_ = button("listingEdit", tr("&Edit the words"), tr("Own words in the place of those from the record"),
                 &ListingPanel::edit);
  button("listingCopy", tr("Cop&y"), tr("Copies the words"), &ListingPanel::copy);
  button("listingFolder", tr("To a &folder..."), tr("Writes the words and the photos to a folder"),
         &ListingPanel::chooseFolder);
  button("listingPrint", tr("&Print..."), tr("A sheet to hang out"), &ListingPanel::print);
  button("listingPdf", tr("&Write a PDF..."), tr("The sheet as PDF"), &ListingPanel::pdf);
  from_record_ = button("listingFromRecord", tr("Back to the record's words"), tr("Drops the own words"),
                        &ListingPanel::backToRecord);
  box->addWidget(line);
}

QString ListingPanel::text() const {
  return machine_ ? QString::fromStdString(paper::as_text(wordsOf(session_, *machine_))) : QString{};
}

void ListingPanel::setMachine(std::optional<MachineId> machine) {
  if (machine_ != machine) closeForm();
  machine_ = machine;
  setVisible(machine.has_value());
  if (!machine) return;
  const auto shop = session_.shop();
  const ListingText* own = own_listing_text(*shop, *machine);
  whose_->setText(own != nullptr ? tr("Your own words, since %1.")
                                       .arg(QString::fromStdString(shown_short(own->date, session_.today())))
                                 : tr("Made from the record; it follows what you write down."));
  from_record_->setVisible(own != nullptr);
  words_->setText(text());
  photos_->setOwner(Photo{.machine = *machine});
}

void ListingPanel::edit() {
  if (!machine_ || form_ != nullptr) return;
  form_ = new Form{session_, QStringLiteral("listing-%1").arg(number(*machine_)),
                   tr("The words of the listing, in your own")};
  form_->setObjectName(QStringLiteral("listingForm"));
  form_->setColumns(1);
  auto* words = new QPlainTextEdit;
  words->setObjectName(QStringLiteral("listingWords"));
  words->setMinimumHeight(grown(kWordsHeight));
  words->setPlainText(text());
  form_->addField(QStringLiteral("text"), tr("The first line is the title. Ctrl+Enter saves"), words);
  const auto save = [this, words]() -> std::optional<Problem> {
    return session_.perform(
        set_listing_text(*session_.shop(), *machine_, session_.today(), words->toPlainText().toStdString()));
  };
  form_->onSave(save);
  auto* enter = new QShortcut{QKeySequence{Qt::CTRL | Qt::Key_Return}, words};
  enter->setContext(Qt::WidgetShortcut);
  // The button saves with all that a form does about it.
  connect(enter, &QShortcut::activated, form_,
          [form = form_] { form->findChild<QPushButton*>(QStringLiteral("save"))->click(); });
  const auto done = [this] {
    closeForm();
    edit_->setFocus();
  };
  connect(form_, &Form::saved, this, done);
  connect(form_, &Form::left, this, done);
  form_place_->addWidget(form_);
  words_->hide();
  form_->open();
}

void ListingPanel::closeForm() {
  words_->show();
  Form* form = std::exchange(form_, nullptr);
  if (form == nullptr) return;
  disconnect(form, nullptr, this, nullptr);
  if (form->isVisible()) form->leave();
  form->hide();
  form->deleteLater();
}

void ListingPanel::backToRecord() {
  if (!machine_) return;
  if (const auto wrong = session_.perform(clear_listing_text(*session_.shop(), *machine_)))
    emit wantsSaid(QString::fromStdString(wrong->sentence), true);
}

void ListingPanel::copy() {
  if (!machine_) return;
  QApplication::clipboard()->setText(text());
  emit wantsSaid(tr("The words of #%1 are copied.").arg(session_.tagOf(*machine_)), false);
}

void ListingPanel::print() {
  if (!machine_) return;
  const PaperSaid said = printPaper(sheetOf(session_, *machine_), this);
  if (!said.sentence.isEmpty()) emit wantsSaid(said.sentence, said.problem);
}

void ListingPanel::pdf() {
  if (!machine_) return;
  const PaperSaid said = savePaper(sheetOf(session_, *machine_), this);
  if (!said.sentence.isEmpty()) emit wantsSaid(said.sentence, said.problem);
}

void ListingPanel::chooseFolder() {
  if (!machine_) return;
  const QString folder =
      QFileDialog::getExistingDirectory(this, tr("Where the listing's folder goes"),
                                        QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation));
  if (!folder.isEmpty()) writeTo(folder);
}

void ListingPanel::writeTo(const QString& folder) {
  if (!machine_) return;
  std::vector<FolderFile> files{{QStringLiteral("listing.txt"), text().toUtf8()}};
  const auto books = session_.books();
  int number = 0;
  for (const Photo* photo : books->by_machine().of(*machine_).photos) {
    const QByteArray content = session_.photo(photo->sha256);
    if (content.isEmpty()) continue;
    QString name = QString::fromStdString(photo->name);
    if (const auto ending = name.lastIndexOf(QLatin1Char('.')); ending > 0) name.truncate(ending);
    files.push_back({QStringLiteral("%1-%2.jpg").arg(++number).arg(asFileName(name)), content});
  }
  const auto written = writeListingFolder(
      folder, asFileName(session_.tagOf(*machine_) + QLatin1Char(' ') + session_.nameOf(*machine_)), files);
  if (!written) return emit wantsSaid(QString::fromStdString(written.error().sentence), true);
  emit wantsSaid(number == 0   ? tr("The words are written to %1; it has no photos yet.").arg(*written)
                 : number == 1 ? tr("The words and 1 photo are written to %1.").arg(*written)
                               : tr("The words and %2 photos are written to %1.").arg(*written).arg(number),
                 false);
}

}  // namespace secondpull::app
