#include "analysis/report/pdf_language.h"

#include <cstdlib>

namespace footing {

std::string with_language(std::string pdf, const std::string& language) {
    const std::string catalog = "/Type /Catalog";
    const std::string start_word = "startxref\n";
    const std::size_t start = pdf.rfind(start_word);
    if (start == std::string::npos) return pdf;
    const std::size_t table = std::strtoul(pdf.c_str() + start + start_word.size(), nullptr, 10);
    if (table >= start || pdf.compare(table, 5, "xref\n") != 0) return pdf;
    const std::size_t at = pdf.rfind(catalog, table);
    if (at == std::string::npos) return pdf;
    const std::string object_end = "endobj\n";
    if (pdf.find(object_end, at) + object_end.size() != table) return pdf;
    const std::string entries = " /Lang (" + language + ") /ViewerPreferences << /DisplayDocTitle true >>";
    std::string end = start_word + std::to_string(table + entries.size()) + "\n%%EOF\n";
    pdf.replace(start, std::string::npos, end);
    pdf.insert(at + catalog.size(), entries);
    return pdf;
}

}  // namespace footing
