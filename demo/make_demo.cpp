// Writes the demo bench files anew: make_demo DIR. A developer's program; the files are committed.
#include <filesystem>
#include <fstream>
#include <iostream>

#include "stories.h"

int main(int count, char** arguments) {
    if (count != 2) {
        std::cerr << "usage: make_demo DIR\n";
        return 2;
    }
    for (const auto& [name, write, seed] : fallaway::demo::demo_files()) {
        const std::filesystem::path path = std::filesystem::path(arguments[1]) / name;
        std::ofstream file(path, std::ios::binary);
        file << write(seed).bench_file;
        if (!file.flush()) {
            std::cerr << path.string() << ": cannot be written\n";
            return 2;
        }
        std::cout << path.string() << "\n";
    }
    return 0;
}
