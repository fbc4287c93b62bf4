// What the test programs share: files, differences, golden updates.
#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace norma::test {

/// The top of the checkout.
std::filesystem::path root();

/// All bytes of a file; a missing one fails the test.
std::string read_file(const std::filesystem::path& path);
void write_file(const std::filesystem::path& path, std::string_view text);

/// UPDATE_GOLDEN=1 asks to rewrite what is expected. Refused (the test fails) where CI is set.
bool update_golden();

/// Lines that differ, as `-` expected and `+` got, with two lines around; "" where nothing does.
std::string difference(std::string_view expected, std::string_view got);

/// A folder of its own below the system's temporary one; gone with the object.
class Folder {
 public:
  Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder();
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

/// Makes `path` the current folder as long as the object lives.
class Inside {
 public:
  explicit Inside(const std::filesystem::path& path);
  Inside(const Inside&) = delete;
  Inside& operator=(const Inside&) = delete;
  ~Inside();

 private:
  std::filesystem::path before_;
};

/// The words of a command line; `'...'` and `"..."` keep blanks together.
std::vector<std::string> split_command(std::string_view line);

} // namespace norma::test
