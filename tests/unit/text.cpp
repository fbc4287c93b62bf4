// Characters: places in files, UTF-8, what may reach a terminal, suggestions.
#include <doctest/doctest.h>

#include <array>
#include <filesystem>
#include <string>

#include "support/support.hpp"
#include "text/files.hpp"
#include "text/source.hpp"
#include "text/suggest.hpp"
#include "text/utf8.hpp"

namespace norma::text {
using namespace std::string_literals;

TEST_CASE("lines and columns count characters from 1, and a byte order mark is no column") {
  const Source s("x", "\xef\xbb\xbf"
                      "ab\xc3\xa9"
                      "d\r\nzw\n");
  CHECK(s.place(3).column == 1);
  CHECK(s.place(7).column == 4); // the d behind a two-byte letter
  CHECK(s.place(10).line == 2);
  CHECK(s.place(10).column == 1);
  CHECK(s.line_at(4) == "ab\xc3\xa9"
                        "d");
  CHECK(s.line_at(11) == "zw");
  CHECK(s.place(13).line == 3); // the end of the file
}

TEST_CASE("UTF-8 as RFC 3629 has it: no overlong forms, no surrogates, nothing above 10FFFF") {
  CHECK(!first_unsound_byte("plain, \xc3\xa9, \xe2\x82\xac, \xf0\x9f\xa6\xb7"));
  CHECK(first_unsound_byte("a\xc0\xaf") == 1);        // overlong /
  CHECK(first_unsound_byte("\xe0\x80\xaf") == 0);     // overlong
  CHECK(first_unsound_byte("ab\xed\xa0\x80") == 2);   // a surrogate
  CHECK(first_unsound_byte("\xf4\x90\x80\x80") == 0); // above 10FFFF
  CHECK(first_unsound_byte("\xe2\x82") == 0);         // cut off
  CHECK(first_unsound_byte("\x80") == 0);             // a continuation alone
  CHECK(first_unsound_byte("nul\0"s) == 3);
  CHECK(first_unsound_byte("eight or more before nul\0 and behind it"s) == 24);
  CHECK(first_unsound_byte("eight or more \xc3\xa9 before it\xc3, and behind") == 26);
}

TEST_CASE("what could act on a terminal or hide text is written out") {
  CHECK(printable("\x1b[31mred") == "\\u{1b}[31mred");
  CHECK(printable("a\tb") == "a b");
  CHECK(printable("a\nb").find('\n') == std::string::npos);
  CHECK(printable("a\nb", true) == "a\nb");
  CHECK(printable("\xe2\x80\xae"
                  "x") == "\\u{202e}x"); // right-to-left override
  CHECK(printable("\xff") == "\\x{ff}");
  CHECK(printable("\xc2\x9b"
                  "1m")
            .find('\x9b') == std::string::npos); // C1 control
  CHECK(printable("\xc3\xa9") == "\xc3\xa9");
}

TEST_CASE("width on a terminal: combining marks have none, wide letters two") {
  CHECK(display_width("abc") == 3);
  CHECK(display_width("e\xcc\x81") == 1);
  CHECK(display_width("\xe6\xad\xaf") == 2);
  CHECK(display_width("\xd7\xa9\xd6\xb8") == 1); // a Hebrew letter with its vowel point
  CHECK(display_width("\xf0\x9f\xa6\xb7") == 2);
  CHECK(display_width("\xff") == 1);
}

TEST_CASE("edits: one swap counts once, upper and lower case are alike, far words are cut off") {
  CHECK(edit_distance("mirror", "miror", 3) == 1);
  CHECK(edit_distance("apreture", "aperture", 3) == 1);
  CHECK(edit_distance("Mirror", "mirror", 3) == 0);
  CHECK(edit_distance("", "ab", 3) == 2);
  CHECK(edit_distance("mirror", "camera", 3) == 4);
  CHECK(edit_distance(std::string(1000, 'a'), "a", 3) == 4);
}

TEST_CASE("the nearest word, if it is near enough for its length") {
  const std::array<std::string_view, 4> words{"camera", "mirror", "iso", "focus on"};
  CHECK(nearest("mirrr", words) == "mirror");
  CHECK(nearest("focusson", words) == "focus on");
  CHECK(nearest("is", words) == "iso");
  CHECK(!nearest("xyz", words));
  CHECK(!nearest("lens", words));
}

TEST_CASE("files: a folder, a missing one, one over 16 MB and a device are told apart") {
  const test::Folder folder;
  const DiskFiles disk;
  const auto kind = [&](const std::string& path) {
    const ReadResult r = disk.read(path);
    REQUIRE(std::holds_alternative<ReadError>(r));
    CHECK(!std::get<ReadError>(r).why.empty());
    return std::get<ReadError>(r).kind;
  };
  CHECK(kind(folder.path().string()) == ReadError::Kind::folder);
  CHECK(kind((folder.path() / "none").string()) == ReadError::Kind::missing);
  CHECK(kind("/dev/zero") == ReadError::Kind::unreadable);
  const auto large = folder.path() / "large";
  test::write_file(large, "x");
  std::filesystem::resize_file(large, largest_file + 1);
  CHECK(kind(large.string()) == ReadError::Kind::too_large);
  std::filesystem::resize_file(large, largest_file);
  CHECK(std::holds_alternative<std::string>(disk.read(large.string())));
}

TEST_CASE("a text is cut between characters") {
  CHECK(text::cut("abc", 5) == "abc");
  CHECK(text::cut("abc", 2) == "ab");
  CHECK(text::cut("a\xc3\xa9z", 2) == "a"); // two bytes of one letter
  CHECK(text::cut("a\xc3\xa9z", 3) == "a\xc3\xa9");
  CHECK(text::cut("\xe6\xad\xaf", 2).empty());
}

} // namespace norma::text
