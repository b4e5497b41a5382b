// Arbitrary bytes as a bench file: never a crash, and what is read comes back the same.
#include <cstddef>
#include <cstdint>
#include <cstdlib>

#include "shop/files/bench_codec.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace fallaway;
    const auto bench = files::decode_bench(std::string_view(reinterpret_cast<const char*>(data), size));
    if (!bench) {
        if (bench.error().empty()) std::abort();
        return 0;
    }
    const std::string text = files::encode_bench(*bench);
    const auto again = files::decode_bench(text);
    if (!again || *again != *bench || files::encode_bench(*again) != text) std::abort();
    return 0;
}
