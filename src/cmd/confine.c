/*
 * Two means, since each covers what the other cannot: Landlock knows files,
 * whatever the call, and the filter knows calls, whatever the file.
 */
#include "cmd/confine.h"

#include <errno.h>
#include <fcntl.h>
#include <linux/audit.h>
#include <linux/filter.h>
#include <linux/landlock.h>
#include <linux/seccomp.h>
#include <stddef.h>
#include <stdint.h>
#include <sys/ioctl.h>
#include <sys/prctl.h>
#include <sys/syscall.h>
#include <unistd.h>

/* Later than the headers of some systems; the kernel is asked for it. */
enum { ABI_REFER = 2, ABI_TRUNCATE = 3 };
#define ACCESS_TRUNCATE (UINT64_C(1) << 14)

/*
 * A ruleset that handles all changes of files and allows none. What it does
 * not handle, reading above all, stays as it is.
 */
static int
confine_files(void)
{
	struct landlock_ruleset_attr attr = {
	    .handled_access_fs =
		LANDLOCK_ACCESS_FS_EXECUTE | LANDLOCK_ACCESS_FS_WRITE_FILE |
		LANDLOCK_ACCESS_FS_REMOVE_DIR | LANDLOCK_ACCESS_FS_REMOVE_FILE |
		LANDLOCK_ACCESS_FS_MAKE_CHAR | LANDLOCK_ACCESS_FS_MAKE_DIR |
		LANDLOCK_ACCESS_FS_MAKE_REG | LANDLOCK_ACCESS_FS_MAKE_SOCK |
		LANDLOCK_ACCESS_FS_MAKE_FIFO | LANDLOCK_ACCESS_FS_MAKE_BLOCK |
		LANDLOCK_ACCESS_FS_MAKE_SYM};
	long abi = syscall(SYS_landlock_create_ruleset, NULL, 0,
	    LANDLOCK_CREATE_RULESET_VERSION);
	int rules;
	long result;

	if (abi < 1)
		return 0;
	if (abi >= ABI_REFER)
		attr.handled_access_fs |= LANDLOCK_ACCESS_FS_REFER;
	if (abi >= ABI_TRUNCATE)
		attr.handled_access_fs |= ACCESS_TRUNCATE;
	rules =
	    (int)syscall(SYS_landlock_create_ruleset, &attr, sizeof(attr), 0);
	if (rules < 0)
		return 0;
	result = syscall(SYS_landlock_restrict_self, rules, 0);
	close(rules);
	return result == 0 ? CONFINE_FILES : 0;
}

#if defined(__x86_64__)
#define MACHINE AUDIT_ARCH_X86_64
#elif defined(__aarch64__) && defined(__AARCH64EL__)
#define MACHINE AUDIT_ARCH_AARCH64
#endif

#ifdef MACHINE

#define LOAD(member)                                                           \
	BPF_STMT(                                                              \
	    BPF_LD | BPF_W | BPF_ABS, offsetof(struct seccomp_data, member))
#define RETURN(what) BPF_STMT(BPF_RET | BPF_K, what)
#define REFUSED (SECCOMP_RET_ERRNO | EPERM)

/* The call is refused. */
#define REFUSE(call)                                                           \
	BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, SYS_##call, 0, 1), RETURN(REFUSED)

/* The call is refused where its argument N has one of the FLAGS. */
#define REFUSE_FLAGS(call, n, flags)                                           \
	BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, SYS_##call, 0, 4),                 \
	    LOAD(args[n]), /* the low half; both machines begin with it */     \
	    BPF_JUMP(BPF_JMP | BPF_JSET | BPF_K, (uint32_t)(flags), 0, 1),     \
	    RETURN(REFUSED), RETURN(SECCOMP_RET_ALLOW)

/* Where what was loaded is VALUE, the call is allowed. */
#define ALLOW_VALUE(value)                                                     \
	BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, value, 0, 1),                      \
	    RETURN(SECCOMP_RET_ALLOW)

/*
 * Calls of a later kernel than this filter knows; those of x32, which count
 * from far above, fall under it too. A C library does without what is not
 * there.
 */
enum { FIRST_UNKNOWN = 452 };
#define NOT_THERE (SECCOMP_RET_ERRNO | ENOSYS)

/* TCGETS2, with which later C libraries ask; its header forbids others. */
#define LATER_TCGETS 0x802C542Au

#define WRITING (O_WRONLY | O_RDWR | O_CREAT | O_TRUNC)

/* The order is of no matter: each row stands for itself. */
static const struct sock_filter filter[] = {
    LOAD(arch),
    BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, MACHINE, 1, 0),
    RETURN(REFUSED),
    LOAD(nr),
    BPF_JUMP(BPF_JMP | BPF_JGE | BPF_K, FIRST_UNKNOWN, 0, 1),
    RETURN(NOT_THERE),
#ifdef SYS_open
    REFUSE_FLAGS(open, 1, WRITING),
#endif
    REFUSE_FLAGS(openat, 2, WRITING),
    REFUSE(openat2), /* its flags are out of sight; nothing here calls it */
    REFUSE(open_by_handle_at),
    /* What asks a terminal; others type into one or change a file's flags. */
    BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, SYS_ioctl, 0, 8),
    LOAD(args[1]),
    ALLOW_VALUE(TCGETS),
    ALLOW_VALUE(LATER_TCGETS),
    ALLOW_VALUE(TIOCGWINSZ),
    RETURN(REFUSED),
    REFUSE(io_uring_setup),
    REFUSE(execve),
    REFUSE(execveat),
    REFUSE(socket),
    REFUSE(socketpair),
#ifndef CONFINE_TRACED /* the leak sanitizer looks on by it */
    REFUSE(ptrace),
#endif
    REFUSE(process_vm_writev),
    REFUSE(pidfd_getfd),
    REFUSE(unlinkat),
    REFUSE(renameat2),
    REFUSE(linkat),
    REFUSE(symlinkat),
    REFUSE(mkdirat),
    REFUSE(mknodat),
    REFUSE(truncate),
#ifdef SYS_renameat
    REFUSE(renameat),
#endif
    /* Landlock knows no rights for modes, owners, attributes and times. */
    REFUSE(fchmod),
    REFUSE(fchmodat),
    REFUSE(fchown),
    REFUSE(fchownat),
    REFUSE(setxattr),
    REFUSE(lsetxattr),
    REFUSE(fsetxattr),
    REFUSE(removexattr),
    REFUSE(lremovexattr),
    REFUSE(fremovexattr),
    REFUSE(utimensat),
#ifdef SYS_creat /* with it come the others of the older form */
    REFUSE(creat),
    REFUSE(unlink),
    REFUSE(rmdir),
    REFUSE(rename),
    REFUSE(link),
    REFUSE(symlink),
    REFUSE(mkdir),
    REFUSE(mknod),
    REFUSE(chmod),
    REFUSE(chown),
    REFUSE(lchown),
    REFUSE(utime),
    REFUSE(utimes),
    REFUSE(futimesat),
#endif
    RETURN(SECCOMP_RET_ALLOW),
};

static int
confine_calls(void)
{
	const struct sock_fprog program = {
	    sizeof(filter) / sizeof(filter[0]), (struct sock_filter *)filter};

	return prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &program) == 0
		   ? CONFINE_CALLS
		   : 0;
}

#else

static int
confine_calls(void)
{
	return 0;
}

#endif

int
confine(void)
{
#ifdef CONFINE_NOTHING /* counting what tests cover writes files at exit */
	return 0;
#endif
	/* Both need it, and no program is to be started anyway. */
	if (prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) != 0)
		return 0;
	return confine_files() | confine_calls();
}
