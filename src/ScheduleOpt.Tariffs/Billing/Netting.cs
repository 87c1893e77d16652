namespace ScheduleOpt.Tariffs.Billing;

/// <summary>Nets import and export of a meter over short stretches of time.</summary>
internal static class Netting
{
    /// <summary>The netted series.</summary>
    /// <param name="import">Import.</param>
    /// <param name="export">Export, interval by interval like the import.</param>
    /// <param name="minutes">Length of the stretches, aligned with the clock; 0 for no netting, none for each metering interval. [min]</param>
    public static (MeteredSeries Import, MeteredSeries Export) Net(MeteredSeries import, MeteredSeries export, int? minutes)
    {
        if (minutes == 0)
        {
            return (import, export);
        }

        var length = (long)import.Interval.TotalSeconds;
        var stretch = Math.Max(length, (minutes ?? 0) * 60L);
        var start = import.Start.ToUnixTimeSeconds();
        long[] netImport = new long[import.Count], netExport = new long[import.Count];
        for (int first = 0, end; first < import.Count; first = end)
        {
            var number = stretch > length ? Stretch(start + (first * length), stretch) : 0;
            long net = import.MicroKilowattHours[first] - export.MicroKilowattHours[first];
            for (end = first + 1; stretch > length && end < import.Count && Stretch(start + (end * length), stretch) == number; end++)
            {
                net += import.MicroKilowattHours[end] - export.MicroKilowattHours[end];
            }

            Spread(net >= 0 ? netImport : netExport, first, end - first, Math.Abs(net));
        }

        return (import.With(netImport), import.With(netExport));
    }

    private static long Stretch(long second, long length) => second >= 0 ? second / length : -((length - 1 - second) / length);

    private static void Spread(long[] energy, int first, int count, long total)
    {
        if (count == 1)
        {
            energy[first] = total;
            return;
        }

        long before = 0;
        for (var j = 0; j < count; j++)
        {
            var upTo = (long)((Int128)total * (j + 1) / count);
            energy[first + j] = upTo - before;
            before = upTo;
        }
    }
}
