#pragma once

#include <filesystem>

#include "core/result.h"

namespace secondpull::db {

/// The exchange folder of the demo shop: share/secondpull/demo-data/shop beside the installed program's own
/// folder, else demo-data/shop of the sources that the program was built from.
Result<std::filesystem::path> demo_folder();

}  // namespace secondpull::db
