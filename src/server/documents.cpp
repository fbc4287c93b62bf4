#include "server/documents.hpp"

#include <filesystem>

#include "server/uri.hpp"

namespace norma::server {

Language Document::language() const {
  if (language_id == "norma" || path.ends_with(".norma")) return Language::protocol;
  if (language_id == "norma-kit") return Language::kit;
  const bool yaml = language_id == "yaml" || path.ends_with(".yaml") || path.ends_with(".yml");
  // Of all the YAML there is, kits say what they are.
  constexpr std::string_view edition = "norma kit:";
  const bool says_so =
      text != nullptr && (text->bytes.starts_with(edition) ||
                          text->bytes.find("\n" + std::string(edition)) != std::string::npos);
  return yaml && says_so ? Language::kit : Language::other;
}

std::shared_ptr<const Text> changed(std::shared_ptr<const Text> text,
                                    const std::vector<Change>& changes, Encoding in) {
  std::size_t moved = 0;
  for (const Change& change : changes) {
    if (!change.range) {
      text = std::make_shared<const Text>(change.text);
      continue;
    }
    moved += text->bytes.size() + change.text.size();
    if (moved > most_moved) return nullptr;
    std::size_t from = text->lines.offset(change.range->start, in);
    std::size_t to = text->lines.offset(change.range->end, in);
    if (to < from) std::swap(from, to);
    std::string bytes = text->bytes;
    bytes.replace(from, to - from, change.text);
    text = std::make_shared<const Text>(std::move(bytes));
  }
  return text;
}

std::string path_called(const std::string& uri) { return path_of(uri).value_or(uri); }

std::string name_on_disk(const std::string& path) {
  std::error_code error;
  const auto real = std::filesystem::weakly_canonical(path, error);
  return error ? path : real.string();
}

Document* Documents::of_uri(const std::string& uri) {
  const auto found = by_file_.find(name_on_disk(path_called(uri)));
  return found == by_file_.end() ? nullptr : &found->second;
}

const Document* Documents::of_file(const std::string& file) const {
  const auto found = by_file_.find(file);
  return found == by_file_.end() ? nullptr : &found->second;
}

Document& Documents::open(Document document) {
  const std::string file = document.file;
  return by_file_.insert_or_assign(file, std::move(document)).first->second;
}

void Documents::close(const Document& document) {
  const std::string file = document.file;
  by_file_.erase(file);
}

} // namespace norma::server
