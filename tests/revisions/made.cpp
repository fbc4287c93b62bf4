#include "made.hpp"

#include <doctest/doctest.h>

#include <cstdlib>

#include "press/pdf.hpp"
#include "press/repository.hpp"

namespace norma::test {
namespace fs = std::filesystem;
namespace {

void must(int code) {
  const git_error* last = git_error_last();
  const std::string why = last == nullptr ? "" : last->message;
  REQUIRE_MESSAGE(code == 0, why);
}

} // namespace

MadeRepository::MadeRepository(fs::path path, bool bare) : path_(std::move(path)) {
  git_libgit2_init();
  git_libgit2_opts(GIT_OPT_ENABLE_STRICT_OBJECT_CREATION, 0); // strangers are not strict
  must(git_repository_init(&repository_, path_.c_str(), bare ? 1 : 0));
  must(git_repository_set_head(repository_, "refs/heads/main"));
}

MadeRepository::~MadeRepository() { git_repository_free(repository_); }

fs::path MadeRepository::inside() const { return git_repository_path(repository_); }

git_oid MadeRepository::blob(const std::string& bytes) {
  git_oid out;
  must(git_blob_create_from_buffer(&out, repository_, bytes.data(), bytes.size()));
  return out;
}

git_oid MadeRepository::tree(const Contents& files) {
  std::map<std::string, Contents> folders;
  git_treebuilder* builder = nullptr;
  must(git_treebuilder_new(&builder, repository_, nullptr));
  for (const auto& [name, content] : files) {
    const std::size_t slash = name.find('/');
    if (slash != std::string::npos) {
      folders[name.substr(0, slash)].emplace(name.substr(slash + 1), content);
      continue;
    }
    git_oid id;
    if (content.mode == GIT_FILEMODE_COMMIT || content.mode == GIT_FILEMODE_TREE)
      must(git_oid_fromstr(&id, content.bytes.c_str()));
    else
      id = blob(content.bytes);
    must(git_treebuilder_insert(nullptr, builder, name.c_str(), &id, content.mode));
  }
  for (const auto& [name, below] : folders) {
    const git_oid id = tree(below);
    must(git_treebuilder_insert(nullptr, builder, name.c_str(), &id, GIT_FILEMODE_TREE));
  }
  git_oid out;
  must(git_treebuilder_write(&out, builder));
  git_treebuilder_free(builder);
  return out;
}

git_oid MadeRepository::commit(const Contents& files, const std::string& reference) {
  return commit_tree(tree(files), reference);
}

git_oid MadeRepository::commit_tree(const git_oid& id, const std::string& reference) {
  git_tree* tree = nullptr;
  must(git_tree_lookup(&tree, repository_, &id));
  git_signature* by = nullptr;
  must(git_signature_new(&by, "Harbour Lane", "lead@harbour.example", 1700000000, 0));
  git_object* before = nullptr;
  git_commit* parent = nullptr;
  if (git_revparse_single(&before, repository_, reference.c_str()) == 0)
    must(git_commit_lookup(&parent, repository_, git_object_id(before)));
  const git_commit* parents[] = {parent};
  git_oid out;
  must(git_commit_create(&out, repository_, reference.c_str(), by, by, nullptr, "a change", tree,
                         parent == nullptr ? 0 : 1, parents));
  git_commit_free(parent);
  git_object_free(before);
  git_signature_free(by);
  git_tree_free(tree);
  return out;
}

fs::path MadeRepository::object(const git_oid& id) const {
  const std::string digits = git_oid_tostr_s(&id);
  return inside() / "objects" / digits.substr(0, 2) / digits.substr(2);
}

git_oid MadeRepository::id(const std::string& spec) {
  git_object* found = nullptr;
  must(git_revparse_single(&found, repository_, spec.c_str()));
  const git_oid out = *git_object_id(found);
  git_object_free(found);
  return out;
}

void MadeRepository::set(const std::string& key, const std::string& value) {
  git_config* config = nullptr;
  must(git_repository_config(&config, repository_));
  must(git_config_set_string(config, key.c_str(), value.c_str()));
  git_config_free(config);
}

Variable::Variable(const char* name, const char* value) : name_(name) {
  const char* before = std::getenv(name);
  had_ = before != nullptr;
  if (had_) before_ = before;
  if (value == nullptr)
    ::unsetenv(name);
  else
    ::setenv(name, value, 1);
}

Variable::~Variable() {
  if (had_)
    ::setenv(name_.c_str(), before_.c_str(), 1);
  else
    ::unsetenv(name_.c_str());
}

cli::Outcome run_norma(const std::vector<std::string>& arguments) {
  // The tests may themselves be run by one of git's hooks.
  const Variable folder("GIT_DIR", std::getenv("NORMA_TEST_GIT_DIR"));
  cli::Surroundings around;
  around.print = press::pdf;
  around.repository = press::repository();
  return cli::run(arguments, around);
}

std::string said(const cli::Outcome& outcome) { return outcome.out + outcome.err; }

std::string small_protocol(const std::string& name, const std::string& rest) {
  return "norma 1\n\nprotocol " + name +
         " \"Small\" {\n  for              adults\n  sensor           36 x 24 mm\n" + rest +
         "\n  view front \"Front\" {\n    must show        facial 13 to 23\n  }\n}\n";
}

} // namespace norma::test
