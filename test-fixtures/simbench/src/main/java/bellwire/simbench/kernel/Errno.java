package bellwire.simbench.kernel;

/**
 * Numbers by which a Linux system call fails; those of the generic table, which Arm and x86 share.
 */
final class Errno {
  static final int ENOENT = -2;
  static final int EIO = -5;
  static final int EBUSY = -16;
  static final int ENODEV = -19;
  static final int EINVAL = -22;
  static final int ENOTTY = -25;
  static final int EMSGSIZE = -90;

  private Errno() {}
}
