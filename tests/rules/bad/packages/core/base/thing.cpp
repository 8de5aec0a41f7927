// Headers, a file and a font of nobody's; and one header whose package only the tests install.
#include <gadget/thing.hpp>
#include <gadgets/known.hpp>
#include <vector>

namespace qb {

const char* const list_of_gadgets = "/usr/share/gadgets/list";
const char* const gadget_face = "Noto Sans Gadgetish";

} // namespace qb
