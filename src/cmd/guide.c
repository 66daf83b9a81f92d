/* guide: how a motion is measured; of a joint alone, what can be measured. */
#include "write/guide.h"

#include "cmd/command.h"
#include "cmd/output.h"
#include "write/asked.h"

/* What was asked for, to OUT; false after saying why not. */
static bool
put_guide(const struct options *options, const struct asked *asked,
    struct buffer *out, struct buffer *wrong)
{
	bool json = options->format == FORMAT_JSON;
	int measurement;

	if (asked->motion < 0 && asked->measure < 0) {
		guide_motions(out, asked->joints ? asked->joints : UINT64_MAX);
		return true;
	}
	measurement = asked_measurement(asked, wrong);
	if (measurement < 0)
		return false;
	if (json)
		guide_json(out, measurement);
	else
		guide_text(out, measurement, options_colour(options));
	return true;
}

int
cmd_guide(const struct options *options)
{
	struct buffer out = {0}, wrong = {0};
	struct asked asked;
	bool good;

	good = asked_read(&asked, ASKED_MOTION, options->files,
		   options->file_count, &wrong) &&
	       put_guide(options, &asked, &out, &wrong);
	if (good)
		output_write(&out);
	else
		trouble("guide: %.*s\n"
			"Try 'rangeline guide knee flexion', or 'rangeline "
			"guide knee' for what it has.",
		    (int)wrong.len, wrong.data);
	buffer_free(&out);
	buffer_free(&wrong);
	return good ? STATUS_CLEAN : STATUS_TROUBLE;
}
