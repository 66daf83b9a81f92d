#include "write/svg.h"

#include "text/utf8.h"

/* By enum svg_line. */
static const char *const line_classes[SVG_LINES] = {"axis", "grid", "main",
    "other", "unsure", "goal", "limit", "event", "band"};

static const char style[] =
    "<style>\n"
    "text { font-family: sans-serif; fill: #000 }\n"
    ".title { font-size: 14px; font-weight: bold }\n"
    ".small { font-size: 11px }\n"
    ".axis { stroke: #000; stroke-width: 1 }\n"
    ".grid { stroke: #ccc; stroke-width: 1 }\n"
    ".main { stroke: #000; stroke-width: 2; fill: none }\n"
    ".other { stroke: #555; stroke-width: 1.5; stroke-dasharray: 7 4; "
    "fill: none }\n"
    ".unsure { stroke: #000; stroke-width: 1.5; stroke-dasharray: 1 4; "
    "stroke-linecap: round; fill: none }\n"
    ".goal { stroke: #000; stroke-width: 1; stroke-dasharray: 12 3 2 3 }\n"
    ".limit { stroke: #000; stroke-width: 1.5; fill: none }\n"
    ".event { stroke: #000; stroke-width: 1; stroke-dasharray: 3 3 }\n"
    ".band { fill: #e2e2e2; stroke: #888; stroke-width: 0.5 }\n"
    ".disc { fill: #000 }\n"
    ".square { fill: #fff; stroke: #000; stroke-width: 1.5 }\n"
    ".cross { stroke: #000; stroke-width: 1.5; fill: none }\n"
    "</style>\n";

/* What XML 1.0 has no place for, and what is no UTF-8, becomes U+FFFD. */
static bool
has_a_place(uint32_t code)
{
	return code == '\t' || code == '\n' || (code >= 0x20 && code < 0x7f) ||
	       (code >= 0xa0 && code != 0xfffd && code != 0xfffe &&
		   code != 0xffff);
}

void
svg_escape(struct buffer *out, const char *text, size_t len)
{
	while (len > 0) {
		size_t size;
		uint32_t code = utf8_decode(text, len, &size);

		if (code == '&')
			buffer_puts(out, "&amp;");
		else if (code == '<')
			buffer_puts(out, "&lt;");
		else if (code == '>')
			buffer_puts(out, "&gt;");
		else if (code == '"')
			buffer_puts(out, "&quot;");
		else if (code == '\'')
			buffer_puts(out, "&#39;");
		else if (has_a_place(code))
			buffer_add(out, text, size);
		else
			buffer_puts(out, "\xef\xbf\xbd");
		text += size;
		len -= size;
	}
}

static void
escape_all(struct buffer *out, const char *text)
{
	size_t len = 0;

	while (text[len])
		len++;
	svg_escape(out, text, len);
}

void
svg_begin(struct buffer *out, double width, double height, const char *title,
    const char *desc)
{
	buffer_printf(out,
	    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
	    "<svg xmlns=\"http://www.w3.org/2000/svg\" "
	    "viewBox=\"0 0 %.0f %.0f\" width=\"%.0f\" height=\"%.0f\">\n"
	    "<title>",
	    width, height, width, height);
	escape_all(out, title);
	buffer_puts(out, "</title>\n<desc>");
	escape_all(out, desc);
	buffer_puts(out, "</desc>\n");
	buffer_puts(out, style);
	/* a page of its own, also where the viewer is dark */
	buffer_puts(
	    out, "<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n");
}

void
svg_end(struct buffer *out)
{
	buffer_puts(out, "</svg>\n");
}

void
svg_group_begin(struct buffer *out, size_t number, const struct buffer *title,
    const struct buffer *desc)
{
	buffer_printf(out,
	    "<g role=\"img\" aria-labelledby=\"title-%zu\" "
	    "aria-describedby=\"desc-%zu\">\n<title id=\"title-%zu\">",
	    number, number, number);
	svg_escape(out, title->data, title->len);
	buffer_printf(out, "</title>\n<desc id=\"desc-%zu\">", number);
	svg_escape(out, desc->data, desc->len);
	buffer_puts(out, "</desc>\n");
}

void
svg_group_end(struct buffer *out)
{
	buffer_puts(out, "</g>\n");
}

void
svg_line(struct buffer *out, enum svg_line line, double x1, double y1,
    double x2, double y2)
{
	buffer_printf(out,
	    "<line class=\"%s\" x1=\"%.1f\" y1=\"%.1f\" x2=\"%.1f\" "
	    "y2=\"%.1f\"/>\n",
	    line_classes[line], x1, y1, x2, y2);
}

void
svg_path_begin(struct buffer *out, enum svg_line line)
{
	buffer_printf(out, "<path class=\"%s\" d=\"", line_classes[line]);
}

void
svg_path_to(struct buffer *out, bool first, double x, double y)
{
	buffer_printf(out, "%c%.1f %.1f", first ? 'M' : 'L', x, y);
}

void
svg_path_end(struct buffer *out, bool closed)
{
	buffer_puts(out, closed ? "Z\"/>\n" : "\"/>\n");
}

void
svg_mark(struct buffer *out, enum svg_mark mark, double x, double y)
{
	switch (mark) {
	case SVG_DISC:
		buffer_printf(out,
		    "<circle class=\"disc\" cx=\"%.1f\" cy=\"%.1f\" "
		    "r=\"4\"/>\n",
		    x, y);
		break;
	case SVG_SQUARE: /* open round a disc in the same place */
		buffer_printf(out,
		    "<rect class=\"square\" x=\"%.1f\" y=\"%.1f\" "
		    "width=\"11\" height=\"11\"/>\n",
		    x - 5.5, y - 5.5);
		break;
	case SVG_CROSS:
		buffer_printf(out,
		    "<path class=\"cross\" d=\"M%.1f %.1fl8 8m0 -8l-8 "
		    "8\"/>\n",
		    x - 4, y - 4);
		break;
	case SVG_MARKS:
		break;
	}
}

void
svg_text(struct buffer *out, enum svg_text kind, enum svg_anchor anchor,
    double x, double y, const char *text, size_t len)
{
	static const char *const classes[SVG_TEXTS] = {"title", "small"};
	static const char *const anchors[] = {"start", "middle", "end"};

	buffer_printf(out,
	    "<text class=\"%s\" text-anchor=\"%s\" x=\"%.1f\" y=\"%.1f\">",
	    classes[kind], anchors[anchor], x, y);
	svg_escape(out, text, len);
	buffer_puts(out, "</text>\n");
}
