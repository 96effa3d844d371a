#pragma once

#include <vector>

#include <QByteArray>
#include <QString>

#include "core/result.h"

namespace secondpull::app {

/// A file of a listing's folder.
struct FolderFile {
  QString name;
  QByteArray content;
};

/// A text as the name of a file or folder on any system: letters and digits with hyphens between them, at
/// most 60 of them; "listing" where nothing is left.
QString asFileName(const QString& text);

/// Writes the files into a new folder of that name in `parent`, whole or not at all; where there is one
/// already, "name-2", "name-3"... Returns its path. A problem names what could not be written.
Result<QString> writeListingFolder(const QString& parent, const QString& name,
                                   const std::vector<FolderFile>& files);

}  // namespace secondpull::app
