namespace ScheduleOpt.Interchange.Meters.GreenButton;

/// <summary>Which block belongs to which meter reading, reading type and usage point: by the links of the entries, and where the file has only one of
/// something, by that.</summary>
internal sealed class EspiMap
{
    private readonly EspiFeed feed;
    private readonly ReadingNotes notes;
    private readonly Dictionary<string, int> readingByAddress = [];

    public EspiMap(EspiFeed feed, ReadingNotes notes)
    {
        (this.feed, this.notes) = (feed, notes);
        for (var i = 0; i < feed.MeterReadings.Count; i++)
        {
            var links = feed.MeterReadings[i];
            foreach (var address in links.Related)
            {
                readingByAddress.TryAdd(address, i);
            }

            if (links.Self is { } self)
            {
                readingByAddress.TryAdd(self, i);
                readingByAddress.TryAdd(self + "/IntervalBlock", i);
            }
        }
    }

    /// <summary>Number of the meter reading that a block belongs to; -1 where the file does not say.</summary>
    public int ReadingOf(IntervalBlock block)
    {
        foreach (var address in new[] { block.Links.Up, block.Links.Self is { } self ? EspiLinks.Above(self) : null, block.Links.Self })
        {
            if (address is not null && readingByAddress.TryGetValue(address, out var reading))
            {
                return reading;
            }
        }

        if (feed.MeterReadings.Count == 1)
        {
            notes.Guess("Blocks that link to no meter reading belong to the only one in the file.");
            return 0;
        }

        return feed.MeterReadings.Count == 0 && feed.ReadingTypes.Count == 1 ? 0 : -1;
    }

    /// <summary>The reading type of a meter reading; none where the file does not say.</summary>
    public ReadingType? TypeOf(int reading)
    {
        if (reading < feed.MeterReadings.Count)
        {
            foreach (var address in feed.MeterReadings[reading].Related)
            {
                if (feed.ReadingTypes.Find(t => t.Links.Self == address).Value is { } type)
                {
                    return type;
                }
            }
        }

        if (feed.ReadingTypes.Count != 1)
        {
            return null;
        }

        notes.Guess("Readings that link to no reading type are of the only one in the file.");
        return feed.ReadingTypes[0].Value;
    }

    /// <summary>Number of the usage point of a meter reading; -1 where the file does not say.</summary>
    public int UsagePointOf(int reading)
    {
        if (reading < feed.MeterReadings.Count)
        {
            var links = feed.MeterReadings[reading];
            var index = feed.UsagePoints.FindIndex(p =>
                p.Links.Self is { Length: > 0 } self
                    && (links.Up == self || links.Up == self + "/MeterReading" || links.Self?.StartsWith(self + "/", StringComparison.Ordinal) == true)
                || (links.Up is { Length: > 0 } up && p.Links.Related.Contains(up))
                || (links.Self is { Length: > 0 } own && p.Links.Related.Contains(own)));
            if (index >= 0)
            {
                return index;
            }
        }

        return feed.UsagePoints.Count == 1 ? 0 : -1;
    }
}
