// The records of the reference tables as wire tables. Shared by the codecs of this room only.
#pragma once

#include "bench/evidence/catalogue.h"
#include "shop/files/wire.h"

namespace fallaway::files {

wire::Codec<evidence::Severity> severity_codec();
wire::Codec<evidence::Cure> cure_codec();
wire::Codec<evidence::Procedure> procedure_codec();

}  // namespace fallaway::files
