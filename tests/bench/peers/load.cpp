// YAML files loaded by yaml-cpp, nothing more: load FILE...
#include <yaml-cpp/yaml.h>

#include <cstddef>
#include <cstdio>

int main(int count, char** files) {
  std::size_t views = 0;
  for (int i = 1; i < count; ++i)
    views += YAML::LoadFile(files[i])["views"].size();
  std::printf("%zu views\n", views);
}
