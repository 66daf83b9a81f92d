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

/* Takes in what there is: 1, 0 at the end of the input, or -errno. */
static int
take_in(struct lsp *lsp, int fd)
{
	char piece[PIECE];
	ssize_t n;

	do
		n = read(fd, piece, sizeof(piece));
	while (n < 0 && errno == EINTR);
	if (n <= 0)
		return n < 0 ? -errno : 0;
	lsp_feed(lsp, piece, (size_t)n);
	return 1;
}

/* Nobody may read them, which is no reason to stop serving. */
static void
write_troubles(struct lsp *lsp)
{
	struct buffer *troubles = lsp_troubles(lsp);

	if (troubles->len > 0 && buffer_write(troubles, STDERR_FILENO) != 0)
		troubles->len = 0;
}

static int
serve(struct lsp *lsp, int in, int out)
{
	int open = 1;
	bool worked = false;

	while (lsp_status(lsp) < 0) {
		while (open > 0 && !lsp_is_busy(lsp) && has_come(in))
			open = take_in(lsp, in);
		worked = lsp_step(lsp);
		write_troubles(lsp);
		if (lsp_output(lsp)->len > 0 &&
		    buffer_write(lsp_output(lsp), out) != 0)
			return LSP_CANNOT_WRITE;
		if (worked)
			continue;
		if (open <= 0) {
			errno = -open;
			return open < 0 ? LSP_CANNOT_READ : lsp_end(lsp);
		}
		open = take_in(lsp, in);
	}
	return lsp_status(lsp);
}

int
lsp_run(int in, int out, const struct lsp_options *options)
{
	struct lsp *lsp = lsp_new(options);
	int status = serve(lsp, in, out), error = errno;

	write_troubles(lsp);
	lsp_free(lsp);
	errno = error;
	return status;
}
