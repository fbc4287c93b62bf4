// The disk below the folders that an editor has opened, and nothing else of it.
#pragma once

#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "text/files.hpp"

namespace norma::server {

class FolderFiles final : public text::Files {
 public:
  /// From now on files below this folder are read, too; links out of it are not followed.
  void open(const std::string& folder);
  void close(const std::string& folder);
  /// The folder that holds the file: the nearest one; "" where none does.
  [[nodiscard]] std::string folder_of(const std::string& path) const;

  [[nodiscard]] text::ReadResult read(const std::string& path) const override;
  [[nodiscard]] text::LocateResult locate(const std::string& from, const std::string& relative,
                                          const std::string& root) const override;
  [[nodiscard]] bool is_link(const std::string& path) const override;
  /// The folder that was opened; outside of all of them the file's own.
  [[nodiscard]] std::string root_of(const std::string& path) const override;
  /// Within the folder that was opened.
  [[nodiscard]] std::optional<text::Above> project_above(const std::string& path) const override;

 private:
  mutable std::mutex mutex_;
  std::vector<std::string> folders_; // as the disk has them
  text::DiskFiles disk_;
};

} // namespace norma::server
