/*
 * Reads from one descriptor and writes to another. What has come is taken in
 * before anything is answered, so that a request that was cancelled meanwhile
 * costs nothing, and findings are worked out only when nothing else waits.
 */
#include <errno.h>
#include <poll.h>
#include <unistd.h>

#include "lsp/lsp.h"
#include "text/buffer.h"

enum { PIECE = 64 * 1024 };

/* Would reading not wait? */
static bool
has_come(int fd)
{
	struct pollfd p = {.fd = fd, .events = POLLIN};

	return poll(&p, 1, 0) > 0;
}

/* Takes in what there is; false at the end of the input. */
static bool
take_in(struct lsp *lsp, int fd)
{
	char piece[PIECE];
	ssize_t n;

	do
		n = read(fd, piece, sizeof(piece));
	while (n < 0 && errno == EINTR);
	if (n <= 0)
		return false;
	lsp_feed(lsp, piece, (size_t)n);
	return true;
}

static int
serve(struct lsp *lsp, int in, int out)
{
	bool open = true, worked = false;

	while (lsp_status(lsp) < 0) {
		while (open && !lsp_is_busy(lsp) && has_come(in))
			open = take_in(lsp, in);
		worked = lsp_step(lsp);
		if (lsp_output(lsp)->len > 0 &&
		    buffer_write(lsp_output(lsp), out) != 0)
			return 2;
		if (worked)
			continue;
		if (!open)
			return 1;
		open = take_in(lsp, in);
	}
	return lsp_status(lsp);
}

int
lsp_run(int in, int out, const struct lsp_options *options)
{
	struct lsp *lsp = lsp_new(options);
	int status = serve(lsp, in, out);

	lsp_free(lsp);
	return status;
}
