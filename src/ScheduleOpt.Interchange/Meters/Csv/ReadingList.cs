using System.Collections;

namespace ScheduleOpt.Interchange.Meters.Csv;

/// <summary>Readings in pieces, so that millions can be gathered without copying them as the list grows.</summary>
internal sealed class ReadingList : IReadOnlyList<TableReading>
{
    private const int Piece = 16_384;

    private readonly List<TableReading[]> pieces = [];
    private bool isReversed;

    public int Count { get; private set; }

    public TableReading this[int index]
    {
        get
        {
            var at = isReversed ? Count - 1 - index : index;
            return pieces[at / Piece][at % Piece];
        }
    }

    public void Add(TableReading reading)
    {
        if (Count == pieces.Count * Piece)
        {
            pieces.Add(new TableReading[Piece]);
        }

        pieces[Count / Piece][Count % Piece] = reading;
        Count++;
    }

    /// <summary>Turns the order round.</summary>
    public void Reverse() => isReversed = !isReversed;

    public void Clear()
    {
        pieces.Clear();
        Count = 0;
    }

    public IEnumerator<TableReading> GetEnumerator()
    {
        for (var i = 0; i < Count; i++)
        {
            yield return this[i];
        }
    }

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
