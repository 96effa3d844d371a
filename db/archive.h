#pragma once

#include <filesystem>
#include <set>
#include <string>

namespace secondpull::db {

/// Writes one compressed tar archive of a shop: `shop_copy` as shop.sqlite and those photos that are there.
/// The file is there entirely or not at all. @throws Failure
void write_archive(const std::filesystem::path& archive, const std::filesystem::path& shop_copy,
                   const std::filesystem::path& photos, const std::set<std::string>& names);

/// Unpacks such an archive into an existing folder. A member that is anything but shop.sqlite or a photo by
/// its name, or a photo whose content is not what its name says, is refused. @throws Failure
void read_archive(const std::filesystem::path& archive, const std::filesystem::path& folder);

}  // namespace secondpull::db
