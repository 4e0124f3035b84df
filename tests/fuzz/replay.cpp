// Stands in for libFuzzer's main where a fuzzer is built with any compiler: feeds it every file of the
// folders given, whole and cut short. Ends with 1 where there is nothing to feed, and as the fuzzer does
// where it finds a fault; the last line then names the input.

#include <cstdint>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

constexpr std::size_t cuts = 64;

void feed(const std::string& bytes, std::size_t size) {
  // A copy of just that size, so that a read beyond its end can be seen.
  const std::string part = bytes.substr(0, size);
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(part.data()), part.size());
}

void replay(const std::filesystem::path& file) {
  std::ifstream stream(file, std::ios::binary);
  const std::string bytes{std::istreambuf_iterator<char>(stream), {}};
  for (std::size_t cut = 0; cut <= cuts; ++cut) {
    std::cout << file.string() << ", " << cut << " of " << cuts << " parts" << std::endl;
    feed(bytes, bytes.size() * cut / cuts);
  }
}

}  // namespace

int main(int count, char** arguments) {
  int files = 0;
  for (int k = 1; k < count; ++k) {
    for (const auto& entry : std::filesystem::recursive_directory_iterator(arguments[k])) {
      if (!entry.is_regular_file()) continue;
      replay(entry.path());
      ++files;
    }
  }
  std::cout << files << " files" << std::endl;
  return files > 0 ? 0 : 1;
}
