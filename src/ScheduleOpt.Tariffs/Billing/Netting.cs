using System.Runtime.CompilerServices;

namespace ScheduleOpt.Tariffs.Billing;

/// <summary>Nets import and export of a meter over short stretches of time.</summary>
internal static class Netting
{
    /// <summary>The netted series; export is none where none is given.</summary>
    /// <param name="import">Import.</param>
    /// <param name="export">Export, interval by interval like the import; none for no export.</param>
    /// <param name="minutes">Length of the stretches, aligned with the clock; 0 for no netting, none for each metering interval. [min]</param>
    public static (MeteredSeries Import, MeteredSeries? Export) Net(MeteredSeries import, MeteredSeries? export, int? minutes)
    {
        var stretch = Math.Max(import.IntervalSeconds, (minutes ?? 0) * 60L);
        if (minutes == 0 || (export is null && stretch == import.IntervalSeconds))
        {
            return (import, export);
        }

        // No export is an export of nothing: its stretches are netted all the same, so that the bill is that of zeros.
        var netExport = export is null ? null : new long[import.Count];
        var netImport = new long[import.Count];
        Net(import, export, stretch, netImport, netExport);
        return (import.With(netImport), netExport is null ? null : import.With(netExport));
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private static void Net(MeteredSeries import, MeteredSeries? export, long stretch, long[] netImport, long[]? netExport)
    {
        long length = import.IntervalSeconds, start = import.StartSecond;
        var imported = import.MicroKilowattHours;
        var exported = export is null ? [] : export.MicroKilowattHours;
        for (int first = 0, end; first < imported.Length; first = end)
        {
            // The intervals that begin before the stretch ends; one, without a division, where each is its own stretch.
            end = stretch == length ? first + 1 : EndOf(start + (first * length), stretch, length, first, imported.Length);
            long net = 0;
            for (var i = first; i < end; i++)
            {
                net += imported[i] - (exported.IsEmpty ? 0 : exported[i]);
            }

            if (net > 0)
            {
                Spread(netImport, first, end - first, net);
            }
            else if (net < 0)
            {
                Spread(netExport!, first, end - first, -net);
            }
        }
    }

    private static int EndOf(long second, long stretch, long length, int first, int count) =>
        (int)Math.Min(count, first + ((stretch - Remainder(second, stretch) - 1) / length) + 1);

    private static long Remainder(long second, long length) => second % length is var rest && rest < 0 ? rest + length : rest;

    private static void Spread(long[] energy, int first, int count, long total)
    {
        if (count == 1)
        {
            energy[first] = total;
            return;
        }

        // Each share is rounded down from the start of the stretch, so that they add up to the whole.
        long before = 0;
        for (var j = 0; j < count; j++)
        {
            var upTo = total <= long.MaxValue / count ? total * (j + 1) / count : (long)((Int128)total * (j + 1) / count);
            energy[first + j] = upTo - before;
            before = upTo;
        }
    }
}
