using System.Xml;

namespace ScheduleOpt.Interchange.Meters.GreenButton;

/// <summary>Reads a Green Button file (NAESB ESPI, usage.xsd 3.3, in an Atom feed) into its parts, without a document in memory.</summary>
internal sealed class EspiFeedReader(ReadingNotes notes)
{
    private static readonly string[] Roots =
        ["feed", "entry", "IntervalBlock", "UsagePoint", "MeterReading", "ReadingType", "LocalTimeParameters", "UsageSummary", "ElectricPowerUsageSummary"];

    private readonly EspiFeed feed = new();
    private readonly Dictionary<string, string> addresses = [];
    private EspiLinks links = new();
    private int entry, entryDepth = -1, blocksBefore;

    public EspiFeed Read(TextReader text)
    {
        var settings = new XmlReaderSettings
        {
            DtdProcessing = DtdProcessing.Prohibit,
            XmlResolver = null,
            IgnoreComments = true,
            IgnoreProcessingInstructions = true,
            IgnoreWhitespace = true,
            MaxCharactersInDocument = MeterLimits.Bytes,
            MaxCharactersFromEntities = 1024,
            NameTable = new LimitedNames(),
        };
        using var reader = XmlReader.Create(new PieceLimitReader(text), settings);
        var cursor = new EspiCursor(reader, notes);
        try
        {
            Walk(cursor);
        }
        catch (XmlException e)
        {
            var rule = e.Message.Contains("DTD", StringComparison.Ordinal)
                ? "A document type definition is refused."
                : "The file must be well-formed XML.";
            throw new FileRefusedException(new("#", rule, Calendars.Shortened.Text(e.Message, 120), e.LineNumber));
        }

        return feed;
    }

    private void Walk(EspiCursor cursor)
    {
        var rootSeen = false;
        while (cursor.Move())
        {
            if (cursor.IsElement)
            {
                if (!rootSeen && !Roots.Contains(cursor.Name))
                {
                    throw new FileRefusedException(new("#", "The root of a Green Button file is an Atom feed.",
                        Calendars.Shortened.Text(cursor.Name), cursor.Line));
                }

                rootSeen = true;
                Take(cursor);
            }
            else if (cursor.IsEnd && cursor.Depth == entryDepth)
            {
                EndEntry();
            }
        }

        EndEntry();
    }

    private void Take(EspiCursor cursor)
    {
        var pointer = $"#/entry/{entry}/{cursor.Name}";
        var payloads = new PayloadReader(cursor, notes, pointer);
        switch (cursor.Name)
        {
            case "entry":
                EndEntry();
                BeginEntry(cursor);
                break;
            case "link" when cursor.Depth == entryDepth + 1:
                links.Add(cursor.Attribute("rel"), cursor.Attribute("href"));
                break;
            case "updated" when cursor.Depth == entryDepth + 1:
                links.Updated = payloads.Updated();
                break;
            case "UsagePoint":
                Add(feed.UsagePoints, (links, payloads.UsagePoint()), cursor);
                break;
            case "MeterReading":
                Add(feed.MeterReadings, links, cursor);
                break;
            case "ReadingType":
                Add(feed.ReadingTypes, (links, payloads.ReadingType()), cursor);
                break;
            case "LocalTimeParameters" or "TimeConfiguration":
                if (payloads.Clock() is { } clock)
                {
                    Add(feed.Clocks, clock, cursor);
                }

                break;
            case "UsageSummary" or "ElectricPowerUsageSummary":
                Add(feed.Summaries, payloads.Summary(), cursor);
                break;
            case "IntervalBlock":
                feed.Blocks.Add(new IntervalBlockReader(cursor, notes, pointer, feed.Readings).Read(links));
                if (feed.Blocks.Count > MeterLimits.Entries)
                {
                    throw TooMany("interval blocks", MeterLimits.Entries, cursor);
                }

                break;
        }
    }

    private void BeginEntry(EspiCursor cursor)
    {
        if (++entry > MeterLimits.Entries)
        {
            throw TooMany("entries", MeterLimits.Entries, cursor);
        }

        links = new();
        entryDepth = cursor.Depth;
        blocksBefore = feed.Blocks.Count;
    }

    private void EndEntry()
    {
        if (feed.Blocks.Count > blocksBefore)
        {
            links.KeepUpAlone(addresses);
            blocksBefore = feed.Blocks.Count;
        }

        links = new();
        entryDepth = -1;
    }

    private static void Add<T>(List<T> list, T value, EspiCursor cursor)
    {
        if (list.Count >= MeterLimits.Described)
        {
            throw TooMany(cursor.Name + " elements", MeterLimits.Described, cursor);
        }

        list.Add(value);
    }

    private static FileRefusedException TooMany(string what, int most, EspiCursor cursor) =>
        new(new("#", $"A file must not have more than {most} {what}.", "", cursor.Line));
}
