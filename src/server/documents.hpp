// The texts that an editor has open, as it has them.
#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "server/position.hpp"

namespace norma::server {

enum class Language { protocol, kit, other };

/// One text of a document. It stays as it is: an edit makes the next one.
struct Text {
  explicit Text(std::string bytes_) : bytes(std::move(bytes_)), lines(bytes) {}
  Text(const Text&) = delete;
  Text& operator=(const Text&) = delete;
  std::string bytes;
  Lines lines;
};

struct Document {
  std::string uri;  // as the editor writes it
  std::string path; // as norma names it
  std::string file; // the one name that it has on the disk
  std::string language_id;
  std::int64_t version = 0;
  std::shared_ptr<const Text> text;

  [[nodiscard]] Language language() const;
};

/// What is put in place of a stretch of text, or of all of it.
struct Change {
  std::optional<Range> range;
  std::string text;
};

/// So much text is moved for one message at most; an editor that asks for more is not followed.
inline constexpr std::size_t most_moved = 4000000000;

/// `text` with the changes, one after the other; nothing where they ask for too much.
std::shared_ptr<const Text> changed(std::shared_ptr<const Text> text,
                                    const std::vector<Change>& changes, Encoding in);

/// A document without an address on the disk is called by its address.
std::string path_called(const std::string& uri);
/// The one name that a file has on the disk.
std::string name_on_disk(const std::string& path);

class Documents {
 public:
  /// Null where it is not open.
  [[nodiscard]] Document* of_uri(const std::string& uri);
  [[nodiscard]] const Document* of_file(const std::string& file) const;
  Document& open(Document document);
  void close(const Document& document);
  [[nodiscard]] const std::map<std::string, Document>& all() const { return by_file_; }

 private:
  std::map<std::string, Document> by_file_;
};

} // namespace norma::server
