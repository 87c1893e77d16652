using System.Runtime.InteropServices;

namespace ScheduleOpt.Scheduling.Solvers;

/// <summary>Gives memory that solvers have freed back to the system, where the C library keeps it.</summary>
/// <remarks>A search by integers takes and frees some megabytes in many pieces. glibc keeps them for each thread that ever solved: measured over 10,000 households on 16 threads, 14 MB were in
/// use and 140 to 160 MB kept, slowly growing (28 November 2026). Other C libraries have no such call, and nothing is done there.</remarks>
internal static class FreedMemory
{
    // What a search frees is kept for the next ones; giving it back costs some milliseconds.
    private const int Searches = 32;

    private static readonly Trim? GiveBack = Find();
    private static int searches;

    [UnmanagedFunctionPointer(CallingConvention.Cdecl)]
    private delegate int Trim(nuint pad);

    /// <summary>Counts a search; after some it gives back what they freed.</summary>
    public static void AfterSearch()
    {
        if (GiveBack is { } trim && Interlocked.Increment(ref searches) % Searches == 0)
        {
            _ = trim(0);
        }
    }

    // Under this name and with this function there is only glibc.
    private static Trim? Find() =>
        NativeLibrary.TryLoad("libc.so.6", out var library) && NativeLibrary.TryGetExport(library, "malloc_trim", out var address)
            ? Marshal.GetDelegateForFunctionPointer<Trim>(address)
            : null;
}
