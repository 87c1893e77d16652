using System.Text;
using ScheduleOpt.Interchange.Meters.Csv;
using ScheduleOpt.Interchange.Meters.GreenButton;

namespace ScheduleOpt.Interchange.Meters;

/// <summary>Reads a file of meter readings: Green Button XML, or a utility's table (CSV).</summary>
/// <remarks>Nothing is fetched: a document type definition is refused, schema addresses and style sheets are ignored. Names, accounts and addresses are not
/// kept. Files of up to 50 MiB with two million readings are read as a stream.</remarks>
public static class MeterFile
{
    /// <summary>Reads a text: XML where it begins with &lt;, a table otherwise.</summary>
    /// <returns>At least one series in equal intervals, with what was read, filled, left out and guessed; or every fault.</returns>
    public static Reading<MeterReadings> Read(string text, MeterFileOptions options)
    {
        ArgumentNullException.ThrowIfNull(text);
        ArgumentNullException.ThrowIfNull(options);
        if (text.Length > MeterLimits.Bytes)
        {
            return TooLarge();
        }

        using var reader = new StringReader(text);
        return Read(reader, options);
    }

    /// <summary>Reads a file. UTF-8, UTF-16 with a mark or recognisable by its zeros, or what an XML declaration names among UTF-8, US-ASCII
    /// and ISO 8859-1.</summary>
    /// <param name="stream">The file; it is not closed.</param>
    /// <param name="options">What the client says about it.</param>
    /// <returns>See the reading of a text.</returns>
    public static Reading<MeterReadings> Read(Stream stream, MeterFileOptions options)
    {
        ArgumentNullException.ThrowIfNull(stream);
        ArgumentNullException.ThrowIfNull(options);
        if (stream.CanSeek && stream.Length - stream.Position > MeterLimits.Bytes)
        {
            return TooLarge();
        }

        using var reader = MeterText.Open(stream);
        return Read(reader, options);
    }

    private static Reading<MeterReadings> Read(TextReader text, MeterFileOptions options)
    {
        var notes = new ReadingNotes();
        MeterReadings? readings = null;
        try
        {
            var (isXml, whole) = MeterText.LooksLikeXml(text);
            readings = isXml ? new GreenButtonFile(options, notes).Read(whole) : new CsvMeterFile(options, notes).Read(whole);
        }
        catch (FileRefusedException refused)
        {
            return Reading<MeterReadings>.Refused([.. notes.Faults.Take(99), refused.Fault]);
        }
        catch (DecoderFallbackException)
        {
            notes.Fault("#", "The text must be valid in its encoding.");
        }

        if (notes.FaultCount == 0 && readings is not { Channels.Count: > 0 })
        {
            notes.Fault("#", "The file must have readings of electrical energy that can be used.", string.Join(" ", notes.Skipped.Take(3)));
        }

        return notes.FaultCount > 0
            ? Reading<MeterReadings>.Refused(notes.Faults)
            : readings! with { Guesses = notes.Guesses, Warnings = notes.Warnings, Skipped = notes.Skipped };
    }

    private static Reading<MeterReadings> TooLarge() =>
        Reading<MeterReadings>.Refused(new Fault("#", $"A file of meter readings must not be larger than {MeterLimits.Bytes / 1024 / 1024} MiB."));
}
