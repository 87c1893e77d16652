namespace ScheduleOpt.Interchange.Meters;

/// <summary>What is noted while a file is read: faults, guesses, warnings, what was left out. Each list has a limit.</summary>
internal sealed class ReadingNotes
{
    private const int Most = 100;

    private readonly List<Fault> faults = [];
    private readonly List<string> guesses = [], warnings = [], skipped = [];
    private int faultsFound;

    public int FaultCount => faultsFound;

    public IReadOnlyList<string> Guesses => guesses;

    public IReadOnlyList<string> Warnings => warnings;

    public IReadOnlyList<string> Skipped => skipped;

    /// <summary>Every fault kept, and a last one that counts the others.</summary>
    public IReadOnlyList<Fault> Faults => faultsFound <= faults.Count
        ? faults
        : [.. faults, new Fault("#", $"{faultsFound - faults.Count} further faults are not listed.")];

    public void Fault(string pointer, string rule, string value = "", int? line = null)
    {
        faultsFound++;
        if (faults.Count < Most)
        {
            faults.Add(new(pointer, rule, Calendars.Shortened.Text(value), line));
        }
    }

    public void Guess(string sentence) => Add(guesses, sentence);

    public void Warn(string sentence) => Add(warnings, sentence);

    public void Skip(string sentence) => Add(skipped, sentence);

    private static void Add(List<string> list, string sentence)
    {
        if (list.Count < Most && !list.Contains(sentence))
        {
            list.Add(sentence);
        }
    }
}
