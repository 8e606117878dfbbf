// What a member is made of.
#include "app/input/case_parts.hpp"
#include "app/input/section_sizes.hpp"

namespace evenpull {

MemberMake read_make(const CaseTable& owner, MaterialShelf& shelf) {
  MemberMake make = read_section(owner, shelf);
  make.material = shelf.take(owner, "material", make.shape.wall);
  return make;
}

}  // namespace evenpull
