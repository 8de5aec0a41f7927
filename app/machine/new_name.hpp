// A file gets a name that nothing has yet, in one step.
// Apart because only Linux has the call for it, and a browser needs none.
#pragma once

namespace qb::inline machines::posix {

// As ::rename, but where `to` is there already: that fails with EEXIST and changes nothing. Fails
// with EINVAL or ENOSYS where the file system does not know how.
[[nodiscard]] int rename_to_new(const char* from, const char* to);

} // namespace qb::inline machines::posix
