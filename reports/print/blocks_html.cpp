#include "reports/print/sheet_blocks.h"
#include "reports/print/sheet_html.h"

namespace farwater::reports {
namespace {

class BlocksInHtml {
public:
    void operator()(const TextBlock& block) {
        switch (block.kind) {
            case TextKind::heading:
                html_.heading(block.text);
                break;
            case TextKind::subheading:
                html_.subheading(block.text);
                break;
            case TextKind::paragraph:
                html_.paragraph(block.text);
                break;
            case TextKind::statement:
                html_.statement(block.text);
                break;
            case TextKind::note:
                html_.note(block.text);
                break;
        }
    }
    void operator()(const ListBlock& block) { html_.list(block.items); }
    void operator()(const SheetTable& block) { html_.table(block.headers, block.rows); }
    void operator()(const FactsBlock& block) { html_.facts(block.rows); }
    void operator()(const BlankTableBlock& block) { html_.blank_table(block.headers, block.rows); }
    void operator()(const LinesBlock& block) { html_.lines_to_fill(block.names); }
    void operator()(const SignaturesBlock& block) { html_.signatures(block.roles); }
    void operator()(const SectionBegin& block) { html_.begin_section(block.id, block.new_page); }
    void operator()(const SectionEnd&) { html_.end_section(); }
    void operator()(const Drawing& block) { html_.element(svg_of(block)); }

    std::string text() const { return html_.text(); }

private:
    SheetHtml html_;
};

}  // namespace

std::string html_of(const SheetBlocks& sheet) {
    BlocksInHtml html;
    for (const SheetBlock& block : sheet.all()) {
        std::visit(html, block);
    }
    return html.text();
}

}  // namespace farwater::reports
