#include "support/support.hpp"

#include <doctest/doctest.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <sstream>

namespace norma::test {
namespace {

std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> out;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t stop = std::min(text.find('\n', at), text.size());
    out.emplace_back(text.substr(at, stop - at));
    at = stop + 1;
  }
  return out;
}

} // namespace

std::filesystem::path root() { return NORMA_ROOT; }

std::string read_file(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  REQUIRE_MESSAGE(in.good(), "cannot read ", path.string());
  std::ostringstream out;
  out << in.rdbuf();
  return out.str();
}

void write_file(const std::filesystem::path& path, std::string_view text) {
  std::ofstream out(path, std::ios::binary | std::ios::trunc);
  out.write(text.data(), static_cast<std::streamsize>(text.size()));
  REQUIRE_MESSAGE(out.good(), "cannot write ", path.string());
}

bool update_golden() {
  const char* asked = std::getenv("UPDATE_GOLDEN");
  if (asked == nullptr || std::string_view(asked) != "1") return false;
  REQUIRE_MESSAGE(std::getenv("CI") == nullptr, "UPDATE_GOLDEN is refused under CI");
  return true;
}

std::string difference(std::string_view expected, std::string_view got) {
  if (expected == got) return {};
  const std::vector<std::string> a = lines_of(expected);
  const std::vector<std::string> b = lines_of(got);
  std::size_t same = 0;
  while (same < a.size() && same < b.size() && a[same] == b[same])
    ++same;
  std::size_t tail = 0;
  while (tail < a.size() - same && tail < b.size() - same &&
         a[a.size() - 1 - tail] == b[b.size() - 1 - tail]) {
    ++tail;
  }
  std::string out;
  for (std::size_t i = same > 2 ? same - 2 : 0; i < same; ++i)
    out += "  " + a[i] + "\n";
  for (std::size_t i = same; i < a.size() - tail; ++i)
    out += "- " + a[i] + "\n";
  for (std::size_t i = same; i < b.size() - tail; ++i)
    out += "+ " + b[i] + "\n";
  for (std::size_t i = a.size() - tail; i < a.size() && i < a.size() - tail + 2; ++i) {
    out += "  " + a[i] + "\n";
  }
  return out.empty() ? "only the line ends differ\n" : out;
}

Folder::Folder() {
  std::string name = (std::filesystem::temp_directory_path() / "norma-XXXXXX").string();
  REQUIRE(::mkdtemp(name.data()) != nullptr);
  path_ = name;
}
Folder::~Folder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

Inside::Inside(const std::filesystem::path& path) : before_(std::filesystem::current_path()) {
  std::filesystem::current_path(path);
}
Inside::~Inside() {
  std::error_code ignored;
  std::filesystem::current_path(before_, ignored);
}

std::vector<std::string> split_command(std::string_view line) {
  std::vector<std::string> out;
  std::string word;
  bool open = false;
  char quote = 0;
  for (const char c : line) {
    if (quote != 0) {
      if (c == quote) {
        quote = 0;
      } else {
        word += c;
      }
    } else if (c == '\'' || c == '"') {
      quote = c;
      open = true;
    } else if (c == ' ' || c == '\n') {
      if (open || !word.empty()) out.push_back(word);
      word.clear();
      open = false;
    } else {
      word += c;
    }
  }
  if (open || !word.empty()) out.push_back(word);
  return out;
}

} // namespace norma::test
