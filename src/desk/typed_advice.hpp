// What a refusal advises names what the person typed: a field of the API, or an option of the command line.
#pragma once

#include <string_view>

namespace sowtide::desk {

/// Advice on stands put in or moved by hand; as it stands, to those who use the API.
struct TypedAdvice {
  std::string_view other_stretch = "Take another stretch, or leave from_m out for the first free one";
  std::string_view put_right =
      "Only what is still to be done can be moved. Where its place was written down wrong, say that it is put "
      "right (put_right); a wrong day is corrected in the log.";
};

/// The same to those at the command line.
inline constexpr TypedAdvice kOptionAdvice{
    .other_stretch = "Take another stretch, or leave the place out for the first free one",
    .put_right =
        "Only what is still to be done can be moved. Where its place was written down wrong, say that it is "
        "put "
        "right (--put-right); a wrong day is corrected in the log.",
};

}  // namespace sowtide::desk
