#pragma once

#include <optional>

#include <QWidget>

#include "core/shop/ids.h"

class QLabel;
class QPushButton;
class QVBoxLayout;

namespace secondpull::app {

class Form;
class PhotoStrip;
class Session;

/// The words of a machine's listing, from the record or the owner's own, to be edited in place; its photos;
/// both copied, written to a folder, on paper and as PDF. Object names: listingText, listingWhose,
/// listingCopy, listingEdit, listingFolder, listingPrint, listingPdf, listingFromRecord, listingForm,
/// listingWords, listingPhotos.
class ListingPanel : public QWidget {
  Q_OBJECT
 public:
  explicit ListingPanel(Session& session, QWidget* parent = nullptr);

  void setMachine(std::optional<MachineId> machine);  ///< also: after records changed
  void edit();                                        ///< opens the words for editing
  void copy();
  void chooseFolder();  ///< asks where to
  /// Writes text and photos to a new folder in there.
  void writeTo(const QString& folder);
  void print();
  void pdf();

 signals:
  void wantsSaid(const QString& sentence, bool problem);

 private:
  QString text() const;
  void closeForm();
  void backToRecord();

  Session& session_;
  std::optional<MachineId> machine_;
  QLabel *whose_, *words_;
  PhotoStrip* photos_;
  QPushButton *edit_, *from_record_;
  QVBoxLayout* form_place_;
  Form* form_ = nullptr;
};

}  // namespace secondpull::app
