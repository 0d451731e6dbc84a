#pragma once
#include <string>

namespace footroom::page {

/// What a practice page is put together from.
struct PageParts {
  std::string html;  ///< with <!--policy-->, <!--style-->, <!--core--> and <!--script-->
  std::string css;
  std::string script;
  std::string core_js;  ///< of the target practice-page
  std::string core_wasm;
  std::string notices;  ///< the licences of what is compiled in
  std::string data;     ///< page_data()
};

/// One self-contained file. Its policy (Content Security Policy, W3C) lets nothing in and nothing
/// out, and runs the scripts and the style that stand in it and no others. WebAssembly and data are
/// packed (zlib, RFC 1950) and stand as base64 (RFC 4648).
/// Throws std::runtime_error where a place is missing or twice, or a script or style would end its
/// element early.
std::string page_file(const PageParts& parts);

}  // namespace footroom::page
