#pragma once

#include <map>
#include <optional>
#include <vector>

#include <QStringList>

#include "db/exchange/knowledge_writing.h"

/// An entry of the knowledge base as a person reads and types it: fields of text.
namespace secondpull::app {

/// What stands in a field: rows of cells. A line is one row of one cell, low to high one row of three, other
/// words a row each; where entries are picked, the first cell of a row is the id of one.
using Rows = std::vector<QStringList>;
/// By the key of the field, which is its name in the JSON text.
using EntrySheet = std::map<QString, Rows>;

struct FieldSpec {
  enum class Kind {
    line,      ///< one cell
    words,     ///< one cell, of sentences
    lines,     ///< a row for each line
    three,     ///< low, usual, high
    choice,    ///< one cell: a word of `words`
    kinds,     ///< a row for each kind of machine; none: any
    picks,     ///< entries of `of`, with a cell for each of `columns` (of a test's chances: each outcome)
    outcomes,  ///< id, name, other words
  };
  QString key;
  QString label;
  Kind kind = Kind::line;
  QString help = {};                                    ///< faded, below the label; may be empty
  const char* of = "";                                  ///< picks: the section
  QStringList columns = {};                             ///< picks: what the cells beside the id are
  std::vector<std::pair<QString, QString>> words = {};  ///< choice: the word kept and what is shown for it
};

struct SectionSpec {
  const char* id;
  QString many;  ///< "Causes"
  QString one;   ///< "cause"
  bool can_be_new = true;
};

/// The sections that are edited here, in the order shown.
const std::vector<SectionSpec>& editedSections();
const SectionSpec& sectionSpec(const QString& section);
/// The fields of the entries of a section.
const std::vector<FieldSpec>& fieldsOf(const QString& section);

/// The row of a test's chances that is for every other cause.
inline constexpr QLatin1String kAnyOther{""};

EntrySheet sheetOf(const db::KnowledgeEntry& entry, const learning::KnowledgeBase& base,
                   const Currency& currency);
/// A new entry of the section, with nothing in it but where it comes from: "own experience".
EntrySheet emptySheet(const QString& section);
/// The entry that the sheet says. The problem's field is the key, its sentence stands alone: a number that is
/// none, numbers that do not rise, a row that does not add up to 100 %, a name that is missing or another
/// entry's. What other entries have to say is for knowledge_if_kept.
Result<db::KnowledgeEntry> entryOf(const QString& section, const std::string& id, const EntrySheet& sheet,
                                   const learning::KnowledgeBase& base, const Currency& currency);

/// What an entry is called; an id that is none stands for itself, kAnyOther for any other cause.
QString nameOf(const learning::KnowledgeBase& base, const QString& section, const QString& id);
/// All entries of a section, by id and name, in the order of their names; of causes the unlisted one too.
std::vector<std::pair<QString, QString>> entriesOf(const learning::KnowledgeBase& base,
                                                   const QString& section);

const Rows& rowsOf(const EntrySheet& sheet, const QString& key);  ///< none where the sheet has no such field
/// Alike but for spaces and cells that are empty.
bool sameRows(const Rows& a, const Rows& b);

/// A number as it is typed: no more digits than it has.
QString numberText(double value);
/// Reads one, nothing if it is none or not finite. With `percent` 40 is 0.4, to the last digit.
std::optional<double> typedNumber(const QString& text, bool percent = false);

}  // namespace secondpull::app
