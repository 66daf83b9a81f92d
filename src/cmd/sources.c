/* sources: where the figures come from; with a key, the figures of one. */
#include "write/sources.h"

#include <string.h>

#include "cmd/command.h"
#include "cmd/output.h"

static const enum sources_format formats[] = {[FORMAT_TEXT] = SOURCES_TEXT,
    [FORMAT_CSV] = SOURCES_CSV,
    [FORMAT_JSON] = SOURCES_JSON};

static bool
put_one(struct buffer *out, const char *key, enum sources_format format)
{
	const char *near;

	if (sources_one(out, key, format))
		return true;
	near = sources_nearest(key);
	trouble("sources: there is no source '%s'%s%s%s\n"
		"Try 'rangeline sources', which lists them.",
	    key, near ? "; did you mean '" : "", near ? near : "",
	    near ? "'?" : "");
	return false;
}

int
cmd_sources(const struct options *options)
{
	enum sources_format format = formats[options->format];
	struct buffer out = {0};
	bool good = true;

	if (options->file_count > 1) {
		trouble("sources: name one source at a time");
		good = false;
	}
	if (good && options->file_count == 1)
		good = put_one(&out, options->files[0], format);
	else if (good)
		sources_list(&out, format);
	if (good)
		output_write(&out);
	buffer_free(&out);
	return good ? STATUS_CLEAN : STATUS_TROUBLE;
}
